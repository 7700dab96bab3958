using System.Text;
using System.Xml;

namespace Goodsheet.Colour.Measurement;

/// <summary>The grammar of CxF3 (ISO 17972-1) and of the tints of a spot ink in CxF/X-4 (ISO 17972-4).</summary>
/// <remarks>
/// Written from public descriptions, from memory, without the standards at hand: no conformity is claimed. Names count,
/// namespaces do not. Nothing outside of the file is ever fetched, and a document type is refused.
/// </remarks>
internal sealed class CxfText
{
    private const int MostDepth = 40;

    private readonly XmlReader reader;
    private readonly ReadLimits limits;
    private readonly CxfDocument document = new();
    private readonly List<string> path = [];
    private readonly StringBuilder text = new();

    private CxfObject? inObject;
    private CxfSpecification? inSpecification;
    private string background = "";
    private string colourSpecification = "";
    private string start = "";
    private string[] triple = ["", "", ""];

    private CxfText(XmlReader reader, ReadLimits limits) => (this.reader, this.limits) = (reader, limits);

    public static bool IsXml(string text) => text.AsSpan().TrimStart("\uFEFF \t\r\n").StartsWith("<");

    public static CxfDocument Parse(string text, ReadLimits limits)
    {
        var settings = new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            MaxCharactersInDocument = limits.Bytes,
            MaxCharactersFromEntities = 1,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
        };
        try
        {
            using var reader = XmlReader.Create(new StringReader(text.TrimStart('\uFEFF', ' ', '\t', '\r', '\n')), settings);
            return new CxfText(reader, limits).Walk();
        }
        catch (XmlException e)
        {
            var type = text.IndexOf("<!DOCTYPE", StringComparison.Ordinal);
            throw e.Message.Contains("DTD", StringComparison.Ordinal) && type >= 0
                ? new FaultException(text.AsSpan(0, type).Count('\n') + 1, "The file has a document type of its own, which is not read for safety.")
                : new FaultException(e.LineNumber, "This is not well-formed XML: the file may be cut off.");
        }
    }

    private int Line => ((IXmlLineInfo)reader).LineNumber;

    private CxfDocument Walk()
    {
        while (reader.Read())
        {
            switch (reader.NodeType)
            {
                case XmlNodeType.Element:
                    Begin();
                    break;
                case XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace:
                    text.Append(reader.Value);
                    break;
                case XmlNodeType.EndElement:
                    End();
                    break;
            }
        }

        return document;
    }

    private void Begin()
    {
        var (name, empty) = (reader.LocalName, reader.IsEmptyElement);
        if (path.Count == 0 && name != "CxF")
        {
            throw new FaultException(Line, $"The file is XML but not CxF: it begins with {(name.Length > 30 ? name[..30] : name)}.");
        }

        if (path.Count == MostDepth)
        {
            throw new FaultException(Line, $"Elements lie more than {MostDepth} deep.");
        }

        text.Clear();
        switch (name)
        {
            case "Object":
                Add(new(Line, Attribute("Name", Attribute("Id")), Attribute("ObjectType"), IsTint: false));
                break;
            case "MeasurementSet":
                background = Attribute("Background");
                break;
            case "Measurement" when inObject is null && path.Contains("SpotInkCharacterisation"):
                Add(new(Line, Attribute("Name", Attribute("Id")), background, IsTint: true));
                var tint = Attribute("Tint", Attribute("TintValue"));
                if (tint.Length > 0)
                {
                    inObject!.Device.Add(("Tint", tint));
                }

                break;
            case "ColorSpecification" when inObject is null:
                inSpecification = new();
                document.Specifications[Attribute("Id")] = inSpecification;
                Limit(document.Specifications.Count, limits.Fields, "specifications");
                break;
            case "ReflectanceSpectrum" or "ColorCIELab" or "ColorCIEXYZ":
                (colourSpecification, start, triple) = (Attribute("ColorSpecification"), Attribute("StartWL"), ["", "", ""]);
                break;
            case "WavelengthRange" when inSpecification is not null:
                (inSpecification.Start, inSpecification.Step) = (Attribute("StartWL"), Attribute("Increment"));
                break;
        }

        path.Add(name);
        if (empty)
        {
            End();
        }
    }

    private void End()
    {
        var (name, within) = (path[^1], path.Count > 1 ? path[^2] : "");
        path.RemoveAt(path.Count - 1);
        var value = text.ToString().Trim();
        text.Clear();
        switch (name)
        {
            case "Object" or "Measurement":
                inObject = null;
                break;
            case "ColorSpecification":
                inSpecification = null;
                break;
            default:
                if (inObject is not null)
                {
                    OfObject(inObject, name, within, value);
                }
                else if (inSpecification is not null)
                {
                    OfSpecification(inSpecification, name, value);
                }

                break;
        }
    }

    private void OfObject(CxfObject of, string name, string within, string value)
    {
        switch (within, name)
        {
            case (_, "ReflectanceSpectrum"):
                var values = value.Split((char[]?)null, limits.Fields + 1, StringSplitOptions.RemoveEmptyEntries);
                Limit(values.Length, limits.Fields, "values in a spectrum");
                Colour(of, new(colourSpecification, CxfKind.Spectrum, start, values));
                break;
            case (_, "ColorCIELab"):
                Colour(of, new(colourSpecification, CxfKind.Lab, "", triple));
                break;
            case (_, "ColorCIEXYZ"):
                Colour(of, new(colourSpecification, CxfKind.Xyz, "", triple));
                break;
            case ("ColorCIELab", "L" or "A" or "B"):
                triple["LAB".IndexOf(name[0], StringComparison.Ordinal)] = value;
                break;
            case ("ColorCIEXYZ", "X" or "Y" or "Z"):
                triple["XYZ".IndexOf(name[0], StringComparison.Ordinal)] = value;
                break;
            case ("ColorRGB", "MaxRange"):
                of.MaxRange = value;
                break;
            case ("ColorRGB", "R" or "G" or "B"):
            case ("ColorCMYK" or "ColorCMYKPlusN", "Cyan" or "Magenta" or "Yellow" or "Black"):
            case ("SpotColor", "Percentage"):
            case ("Measurement", "Tint" or "TintValue"):
                Limit(of.Device.Count, 20, "channels");
                of.Device.Add((name, value));
                break;
        }
    }

    private static void OfSpecification(CxfSpecification of, string name, string value)
    {
        switch (name)
        {
            case "Illuminant":
                of.Illuminant = value;
                break;
            case "Observer":
                of.Observer = value;
                break;
            case "DeviceIllumination" or "MeasurementCondition":
                of.Condition = CxfTable.Condition(value);
                break;
        }
    }

    private void Add(CxfObject next)
    {
        if (inObject is not null)
        {
            throw new FaultException(Line, "One object stands inside of another.");
        }

        Limit(document.Objects.Count + 1, limits.Rows, "objects");
        document.Objects.Add(inObject = next);
    }

    private void Colour(CxfObject of, CxfColour colour)
    {
        Limit(of.Colours.Count, 32, "colours of one object");
        of.Colours.Add(colour);
    }

    private void Limit(int count, int most, string what)
    {
        if (count > most)
        {
            throw new FaultException(Line, $"There are more than {most:N0} {what}.");
        }
    }

    private string Attribute(string name, string otherwise = "") => reader.GetAttribute(name) is { Length: > 0 } value ? value : otherwise;
}
