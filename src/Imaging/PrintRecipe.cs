using Goodsheet.Colour.Icc;

namespace Goodsheet.Imaging;

/// <summary>What the sides of a stretcher show.</summary>
public enum WrapKind
{
    /// <summary>The picture mirrored at its edge.</summary>
    Mirrored,

    /// <summary>The outermost quarter of that, drawn out over the whole side.</summary>
    Stretched,

    /// <summary>Bare paper.</summary>
    Plain,
}

/// <summary>All that makes a print-ready file out of a picture: the same picture and recipe give the same file.</summary>
public sealed record PrintRecipe
{
    /// <summary>The picture on paper, in mm, without border.</summary>
    public required double WidthMm { get; init; }

    public required double HeightMm { get; init; }

    /// <summary>White paper around it, in mm.</summary>
    public double BorderMm { get; init; }

    /// <summary>What goes around the picture, in mm: for the sides of a stretcher.</summary>
    public double WrapMm { get; init; }

    public WrapKind WrapAs { get; init; } = WrapKind.Mirrored;

    /// <summary>Pixels per inch of the printer itself.</summary>
    public required double Ppi { get; init; }

    public required RenderingIntent Intent { get; init; }

    public bool BlackPointCompensation { get; init; } = true;

    /// <summary>The width of the sharpening's halo on paper, in mm, 0 for none: what the eye at arm's length does not see as a halo.</summary>
    public double HaloMm { get; init; } = 0.3;

    /// <summary>0 to 2; matte papers take more, since ink spreads on them.</summary>
    public double Sharpening { get; init; } = 0.5;

    /// <summary>Fine lines at the corners of the picture, to cut along.</summary>
    public bool TrimMarks { get; init; } = true;

    /// <summary>8 bits a channel, dithered, for a driver that takes no 16.</summary>
    public bool EightBits { get; init; }

    /// <summary>A length in whole pixels: the nearest, halves up.</summary>
    public int Pixels(double mm) => (int)Math.Floor((mm / 25.4 * Ppi) + 0.5);

    public int PictureWidth => Pixels(WidthMm);

    public int PictureHeight => Pixels(HeightMm);

    public int BorderPixels => Pixels(BorderMm);

    public int WrapPixels => Pixels(WrapMm);

    /// <summary>Over how many pixels of the wrap each of the picture's is drawn out.</summary>
    internal int WrapStretch => WrapAs is WrapKind.Stretched ? 4 : 1; // by eye, no source

    public int FullWidth => PictureWidth + (2 * (WrapPixels + BorderPixels));

    public int FullHeight => PictureHeight + (2 * (WrapPixels + BorderPixels));

    /// <summary>Bytes of the whole file, but for what it carries beside its pixels.</summary>
    public long Bytes(int channels) => DiskRoom.Of(FullWidth, FullHeight, channels, EightBits);

    /// <summary>What is impossible in it, in words; none when it will do.</summary>
    public PictureFault? Fault() => this switch
    {
        { WidthMm: not (> 0 and < 20_000) } or { HeightMm: not (> 0 and < 20_000) } => new("A print is wider and higher than nothing, and under 20 m."),
        { BorderMm: not (>= 0 and < 1_000) } => new("A border is 0 or more, and under 1 m."),
        { WrapMm: not (>= 0 and < 200) } => new("A wrap is 0 or more, and under 200 mm."),
        { Ppi: not (>= 50 and <= 4_800) } => new("Printers take between 50 and 4800 pixels per inch."),
        { HaloMm: not (>= 0 and <= 10) } or { Sharpening: not (>= 0 and <= 2) } => new("A sharpening's halo is 0 to 10 mm wide, its strength 0 to 2."),
        _ when WrapPixels > Math.Min(PictureWidth, PictureHeight) => new("The wrap is wider than the picture that is mirrored into it: a narrower wrap."),
        _ when Math.Max(FullWidth, FullHeight) > ImageFile.MostSide => new($"One side would have more than {ImageFile.MostSide} pixels: a smaller size or fewer pixels per inch."),
        _ when (long)FullWidth * FullHeight > ImageFile.MostPixels * 3 || PictureWidth < 1 || PictureHeight < 1 => new("So many pixels cannot be made: a smaller size or fewer pixels per inch."),
        _ => null,
    };
}
