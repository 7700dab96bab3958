using System.Globalization;
using System.Text;

namespace Goodsheet.Colour.Tests.Measurement;

/// <summary>Invented CxF files, small, in the structure that public descriptions give: no file of any program.</summary>
public static class CxfSamples
{
    private static readonly int[] Levels = [0, 64, 128, 192, 255];

    /// <summary>The same five patches as <see cref="Charts.Rgb"/>, read in each of the conditions.</summary>
    public static string Rgb(params string[] conditions)
    {
        var text = new StringBuilder("""
            <?xml version="1.0" encoding="UTF-8"?>
            <!-- invented -->
            <cc:CxF xmlns:cc="http://colorexchangeformat.com/CxF3-core">
            <cc:FileInformation><cc:Creator>invented</cc:Creator></cc:FileInformation>
            <cc:Resources><cc:ObjectCollection>

            """);
        for (var i = 0; i < Levels.Length; i++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<cc:Object ObjectType=\"Standard\" Name=\"A{i + 1}\" Id=\"o{i}\"><cc:ColorValues>");
            for (var c = 0; c < conditions.Length; c++)
            {
                var values = string.Join(' ', Enumerable.Repeat((Charts.Reflectance(i) * (1 - (0.1 * c))).ToString("0.####", CultureInfo.InvariantCulture), 36));
                text.Append(CultureInfo.InvariantCulture, $"<cc:ReflectanceSpectrum ColorSpecification=\"cs{c}\" StartWL=\"380\">{values}</cc:ReflectanceSpectrum>");
            }

            text.Append(CultureInfo.InvariantCulture, $"</cc:ColorValues><cc:DeviceColorValues><cc:ColorRGB ColorSpecification=\"d\"><cc:MaxRange>255</cc:MaxRange><cc:R>{Levels[i]}</cc:R><cc:G>{Levels[i]}</cc:G><cc:B>{Levels[i]}</cc:B></cc:ColorRGB></cc:DeviceColorValues></cc:Object>\n");
        }

        text.Append("</cc:ObjectCollection><cc:ColorSpecificationCollection>\n");
        for (var c = 0; c < conditions.Length; c++)
        {
            text.Append(CultureInfo.InvariantCulture, $"<cc:ColorSpecification Id=\"cs{c}\"><cc:TristimulusSpec><cc:Illuminant>D50</cc:Illuminant><cc:Observer>2_Degree</cc:Observer></cc:TristimulusSpec><cc:MeasurementSpec><cc:MeasurementType>Spectrum_Reflectance</cc:MeasurementType><cc:WavelengthRange StartWL=\"380\" Increment=\"10\"/><cc:Device><cc:DeviceIllumination>{conditions[c]}</cc:DeviceIllumination></cc:Device></cc:MeasurementSpec></cc:ColorSpecification>\n");
        }

        return text.Append("</cc:ColorSpecificationCollection></cc:Resources></cc:CxF>\n").ToString();
    }

    /// <summary>Two patches of four inks in Lab.</summary>
    public static string Cmyk(string illuminant = "D50") => $"""
        <CxF><Resources><ObjectCollection>
        <Object Name="p1"><ColorValues><ColorCIELab ColorSpecification="s"><L>95</L><A>0.5</A><B>-2</B></ColorCIELab></ColorValues><DeviceColorValues><ColorCMYK><Cyan>0</Cyan><Magenta>0</Magenta><Yellow>0</Yellow><Black>0</Black></ColorCMYK></DeviceColorValues></Object>
        <Object Name="p2"><ColorValues><ColorCIELab ColorSpecification="s"><L>16</L><A>0</A><B>0</B></ColorCIELab></ColorValues><DeviceColorValues><ColorCMYK><Cyan>50</Cyan><Magenta>0</Magenta><Yellow>0</Yellow><Black>100</Black></ColorCMYK></DeviceColorValues></Object>
        </ObjectCollection><ColorSpecificationCollection><ColorSpecification Id="s"><TristimulusSpec><Illuminant>{illuminant}</Illuminant><Observer>2_Degree</Observer></TristimulusSpec></ColorSpecification></ColorSpecificationCollection></Resources></CxF>
        """;

    /// <summary>A spot ink in three tints, on paper and on black.</summary>
    public static string SpotInk() => """
        <CxF><Resources/><CustomResources><SpotInkCharacterisation SpotInkName="invented orange">
        <MeasurementSet Background="Substrate">
        <Measurement Tint="0"><ColorCIEXYZ><X>85</X><Y>88</Y><Z>72</Z></ColorCIEXYZ></Measurement>
        <Measurement Tint="50"><ColorCIEXYZ><X>60</X><Y>50</Y><Z>30</Z></ColorCIEXYZ></Measurement>
        <Measurement Tint="100"><ColorCIEXYZ><X>45</X><Y>32</Y><Z>5</Z></ColorCIEXYZ></Measurement>
        </MeasurementSet>
        <MeasurementSet Background="Process"><Measurement Tint="100"><ColorCIEXYZ><X>2</X><Y>2</Y><Z>1</Z></ColorCIEXYZ></Measurement></MeasurementSet>
        </SpotInkCharacterisation></CustomResources></CxF>
        """;
}
