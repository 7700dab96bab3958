using System.CommandLine;
using System.Globalization;
using Goodsheet.App.Orders;
using Goodsheet.Colour.Icc;
using Goodsheet.Imaging;
using Goodsheet.Room.Units;

namespace Goodsheet.Cli.Images;

/// <summary><c>image check</c> and <c>image prepare</c>: without a room, on files alone.</summary>
public static class ImageVerbs
{
    internal static readonly Argument<string> Picture = new("IMAGE") { Description = "A TIFF, JPEG or PNG file." };

    internal static readonly Option<string> Profile = new("--profile") { Description = "The ICC profile of the printer with its paper.", Required = true };

    internal static readonly Option<LengthText.StatedSize?> Size = Sized("--size", "Width by height of the picture on paper, as 300x400mm.", required: true);

    private static readonly Option<LengthText.Stated?> Distance = Measured("--distance", "From where it is looked at, as 50cm.", 500);

    private static readonly Option<LengthText.Stated?> Border = Measured("--border", "White paper around it, as 10mm.", 0);

    private static readonly Option<LengthText.Stated?> Wrap = Measured("--wrap", "What goes around a stretcher, for canvas, as 40mm.", 0);
    internal static readonly Option<bool> EightBits = new("--eight-bits") { Description = "8 bits a channel, finely dithered, for a driver that takes no 16." };
    private static readonly Option<WrapKind> WrapAs = new("--wrap-as") { Description = "What its sides show: the picture mirrored, stretched, or plain canvas.", DefaultValueFactory = _ => WrapKind.Mirrored };

    internal static readonly Option<RenderingIntent> Intent = new("--intent")
    {
        Description = "relative, perceptual, saturation or absolute.",
        DefaultValueFactory = _ => RenderingIntent.RelativeColorimetric,
        CustomParser = argument =>
        {
            switch (argument.Tokens[0].Value)
            {
                case "relative": return RenderingIntent.RelativeColorimetric;
                case "perceptual": return RenderingIntent.Perceptual;
                case "saturation": return RenderingIntent.Saturation;
                case "absolute": return RenderingIntent.AbsoluteColorimetric;
                default:
                    argument.AddError("--intent is relative, perceptual, saturation or absolute.");
                    return RenderingIntent.RelativeColorimetric;
            }
        },
    };

    internal static readonly Option<bool> Compensation = new("--bpc") { Description = "Take the darkest colour to the darkest: black-point compensation." };

    internal static readonly Option<double> Ppi = new("--ppi")
    {
        Description = "Pixels per inch of the printer, 50 to 4800.",
        DefaultValueFactory = _ => 360,
        CustomParser = argument =>
        {
            if (!double.TryParse(argument.Tokens[0].Value, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var ppi))
            {
                argument.AddError("--ppi is a number such as 360.");
            }

            return ppi;
        },
    };

    internal static readonly Option<bool> NoSharpening = new("--no-sharpening") { Description = "Leave the edges as they are." };

    private static readonly Option<string> Out = new("--out") { Description = "Where to write the TIFF; a name that ends in .pdf makes a PDF 1.6 with the profile as its output intent.", Required = true };

    public static Command Create()
    {
        var check = new Command("check", "Says what will go wrong with a print before it is made.") { Picture, Profile, Size, Distance, Answer.Json };
        check.SetAction(async (line, cancel) => await line.GiveAsync(
            await new CheckImage().RunAsync(
                new(line.GetRequiredValue(Picture), line.GetRequiredValue(Profile), line.GetValue(Size)!.Width, line.GetValue(Size)!.Height, line.GetValue(Distance)!.Length), cancel),
            done => done,
            Words));
        var prepare = new Command("prepare", "Makes a 16-bit TIFF or a PDF in the printer's own colours, in exact size.")
        {
            Picture, Profile, Size, Border, Wrap, WrapAs, EightBits, Intent, Compensation, Ppi, NoSharpening, Out, Answer.Json,
        };
        prepare.SetAction(async (line, cancel) => await line.GiveAsync(
            await new PrepareImage(TimeProvider.System).RunAsync(
                new(line.GetRequiredValue(Picture), line.GetRequiredValue(Profile), Recipe(line), line.GetRequiredValue(Out)), line.Progress(), cancel),
            done => done,
            done => $"{done.File}: {done.PixelsWide} × {done.PixelsHigh} pixels of {done.Channels} channels, {done.Ppi:0.##} an inch. Print it without colour management in the driver, at 100 %."));
        return new("image", "Pictures before they are printed.") { check, prepare, PieceVerbs.Strip(), PieceVerbs.Tiles(), PieceVerbs.Proofs() };
    }

    private static PrintRecipe Recipe(ParseResult line)
    {
        var size = line.GetValue(Size)!;
        var recipe = new PrintRecipe
        {
            WidthMm = size.Width.Millimetres,
            HeightMm = size.Height.Millimetres,
            BorderMm = line.GetValue(Border)!.Length.Millimetres,
            WrapMm = line.GetValue(Wrap)!.Length.Millimetres,
            WrapAs = line.GetValue(WrapAs),
            EightBits = line.GetValue(EightBits),
            Ppi = line.GetValue(Ppi),
            Intent = line.GetValue(Intent),
            BlackPointCompensation = line.GetValue(Compensation),
        };
        return line.GetValue(NoSharpening) ? recipe with { HaloMm = 0 } : recipe;
    }

    private static string Words(CheckImage.Done done) => string.Create(
        CultureInfo.CurrentCulture,
        $"{done.PixelsWide} × {done.PixelsHigh} pixels, {done.Depth} bits. {(done.Findings.Count == 0 ? "Nothing will go wrong that can be seen from here." : "")}{string.Concat(done.Findings.Select(f => $"\n{f.Kind}: {f.Text} {f.Help}"))}");

    internal static Option<LengthText.StatedSize?> Sized(string name, string description, bool required) => new(name)
    {
        Description = description,
        Required = required,
        CustomParser = argument =>
        {
            var read = LengthText.ReadSize(argument.Tokens[0].Value);
            if (!read.Granted)
            {
                argument.AddError(read.Refusal.Message);
            }

            return read.Value;
        },
    };

    internal static Option<LengthText.Stated?> Measured(string name, string description, decimal otherwiseMm) => new(name)
    {
        Description = description,
        DefaultValueFactory = _ => new LengthText.Stated(Length.FromMillimetres(otherwiseMm)),
        CustomParser = argument =>
        {
            var read = LengthText.Read(argument.Tokens[0].Value);
            if (!read.Granted)
            {
                argument.AddError(read.Refusal.Message);
            }

            return read.Value;
        },
    };
}
