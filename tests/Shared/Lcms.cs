using System.Runtime.InteropServices;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Tests.Shared;

/// <summary>Little CMS 2, the independent engine that ours is measured against. In tests and benches only.</summary>
/// <remarks>Without its optimisations and its cache, so that it does what the profiles say and nothing else. Colours go
/// in and come out in this project's units: device values 0 to 1 (its own CMYK runs to 100), L*a*b* and XYZ themselves.</remarks>
public static partial class Lcms
{
    private const string Library = "lcms2";
    private const uint Exactly = 0x0100 | 0x0040; // no optimisation, no cache
    private const uint NoCache = 0x0040;
    private const uint Compensate = 0x2000;

    static Lcms()
    {
        var handle = Load() ?? Install();
        NativeLibrary.SetDllImportResolver(typeof(Lcms).Assembly, (name, _, _) => name == Library ? handle : IntPtr.Zero);
    }

    /// <summary>Its version, such as 2140.</summary>
    public static int Version => cmsGetEncodedCMMversion();

    /// <summary>Whether it accepts the file as a profile.</summary>
    public static bool Opens(ReadOnlySpan<byte> profile)
    {
        var opened = cmsOpenProfileFromMem(profile, (uint)profile.Length);
        return opened != IntPtr.Zero && cmsCloseProfile(opened) != 0;
    }

    /// <summary>Takes rows of colours from one profile to another.</summary>
    public static double[] Convert(
        ReadOnlySpan<double> rows, byte[] source, byte[] destination, RenderingIntent intent, bool blackPointCompensation)
    {
        var (from, to) = (Open(source), Open(destination));
        var (spaceIn, spaceOut) = (Space(source), Space(destination));
        return Run(rows, (from, spaceIn), (to, spaceOut), intent, blackPointCompensation);
    }

    /// <summary>Takes rows of device values to L*a*b*.</summary>
    public static double[] ToLab(ReadOnlySpan<double> rows, byte[] source, RenderingIntent intent) =>
        Run(rows, (Open(source), Space(source)), (cmsCreateLab2Profile(IntPtr.Zero), ColourSpace.Lab), intent, false);

    /// <summary>Takes rows of L*a*b* to device values.</summary>
    /// <remarks>Its Lab profile of version 4 has no fixed black of its own unless the destination is perceptual, too.</remarks>
    public static double[] FromLab(ReadOnlySpan<double> rows, byte[] destination, RenderingIntent intent) =>
        Run(rows, (cmsCreateLab4Profile(IntPtr.Zero), ColourSpace.Lab), (Open(destination), Space(destination)), intent, false);

    /// <summary>Takes rows of 16-bit codes from one profile to another.</summary>
    public static ushort[] Convert(
        ReadOnlySpan<ushort> rows, byte[] source, byte[] destination, RenderingIntent intent, bool blackPointCompensation)
    {
        var (from, to) = (Open(source), Open(destination));
        var (spaceIn, spaceOut) = (Space(source), Space(destination));
        var transform = Create(from, Format(spaceIn, 2), to, Format(spaceOut, 2), intent, blackPointCompensation);
        var count = rows.Length / spaceIn.Channels();
        var result = new ushort[count * spaceOut.Channels()];
        cmsDoTransform16(transform, rows, result, (uint)count);
        Close(transform, from, to);
        return result;
    }

    /// <summary>A conversion of 16-bit codes made once and used often, for timing: as others use the engine, with its optimisations, or exactly.</summary>
    public static Action<ushort[], ushort[]> Ready(byte[] source, byte[] destination, RenderingIntent intent, bool blackPointCompensation, bool exactly)
    {
        var (spaceIn, spaceOut) = (Space(source), Space(destination));
        var transform = Create(Open(source), Format(spaceIn, 2), Open(destination), Format(spaceOut, 2), intent, blackPointCompensation, exactly ? Exactly : NoCache);
        return (from, to) => cmsDoTransform16(transform, from, to, (uint)(from.Length / spaceIn.Channels()));
    }

    /// <summary>The black points it finds: of a source, and of a destination.</summary>
    public static (XyzNumber Source, XyzNumber Destination) BlackPoints(byte[] profile, RenderingIntent intent)
    {
        var opened = Open(profile);
        Span<double> source = stackalloc double[3];
        Span<double> destination = stackalloc double[3];
        _ = cmsDetectBlackPoint(source, opened, (uint)intent, 0);
        _ = cmsDetectDestinationBlackPoint(destination, opened, (uint)intent, 0);
        _ = cmsCloseProfile(opened);
        return (new(source[0], source[1], source[2]), new(destination[0], destination[1], destination[2]));
    }

    private static double[] Run(
        ReadOnlySpan<double> rows, (IntPtr Profile, ColourSpace Space) from, (IntPtr Profile, ColourSpace Space) to, RenderingIntent intent, bool compensate)
    {
        var transform = Create(from.Profile, Format(from.Space, 0), to.Profile, Format(to.Space, 0), intent, compensate);
        var count = rows.Length / from.Space.Channels();
        var result = new double[count * to.Space.Channels()];
        cmsDoTransform(transform, Scaled(rows, from.Space == ColourSpace.Cmyk ? 100 : 1), result, (uint)count);
        Close(transform, from.Profile, to.Profile);
        return Scaled(result, to.Space == ColourSpace.Cmyk ? 0.01 : 1);
    }

    private static double[] Scaled(ReadOnlySpan<double> rows, double by)
    {
        var scaled = rows.ToArray();
        for (var i = 0; i < scaled.Length; i++)
        {
            scaled[i] *= by;
        }

        return scaled;
    }

    private static IntPtr Create(
        IntPtr from, uint formatIn, IntPtr to, uint formatOut, RenderingIntent intent, bool compensate, uint exactly = Exactly)
    {
        var transform = cmsCreateTransform(from, formatIn, to, formatOut, (uint)intent, exactly | (compensate ? Compensate : 0));
        return transform != IntPtr.Zero ? transform : throw new InvalidOperationException("Little CMS makes no transform of these.");
    }

    private static void Close(IntPtr transform, IntPtr from, IntPtr to)
    {
        cmsDeleteTransform(transform);
        _ = cmsCloseProfile(from);
        _ = cmsCloseProfile(to);
    }

    private static IntPtr Open(byte[] profile)
    {
        var opened = cmsOpenProfileFromMem(profile, (uint)profile.Length);
        return opened != IntPtr.Zero ? opened : throw new InvalidOperationException("Little CMS does not open this profile.");
    }

    private static ColourSpace Space(byte[] profile) =>
        ColourSpaces.Named(Signature.Of(System.Text.Encoding.ASCII.GetString(profile, 16, 4)))!.Value;

    // Space, channels, bytes a channel; 0 bytes with the mark of floating point means double.
    private static uint Format(ColourSpace space, uint bytes) => (bytes == 0 ? 1u << 22 : 0) | (uint)space.Channels() << 3 | bytes | space switch
    {
        ColourSpace.Grey => 3u << 16,
        ColourSpace.Rgb => 4u << 16,
        ColourSpace.Cmyk => 6u << 16,
        ColourSpace.Xyz => 9u << 16,
        ColourSpace.Lab => 10u << 16,
        _ => throw new ArgumentOutOfRangeException(nameof(space)),
    };

    private static IntPtr? Load()
    {
        foreach (var name in (string[])["liblcms2.so.2", "liblcms2.2.dylib", "lcms2.dll", "liblcms2"])
        {
            if (NativeLibrary.TryLoad(name, out var handle))
            {
                return handle;
            }
        }

        return null;
    }

    private static IntPtr Install()
    {
        if (Debian.MayInstall)
        {
            Debian.Install(() => Load() is not null, "liblcms2-2");
        }

        return Load() ?? throw new InvalidOperationException(
            "These tests compare with Little CMS 2, which is not here: install the package liblcms2-2.");
    }

    [LibraryImport(Library)]
    private static partial int cmsGetEncodedCMMversion();

    [LibraryImport(Library)]
    private static partial IntPtr cmsOpenProfileFromMem(ReadOnlySpan<byte> bytes, uint size);

    [LibraryImport(Library)]
    private static partial IntPtr cmsCreateLab2Profile(IntPtr whitePoint);

    [LibraryImport(Library)]
    private static partial IntPtr cmsCreateLab4Profile(IntPtr whitePoint);

    [LibraryImport(Library)]
    private static partial IntPtr cmsCreateTransform(IntPtr from, uint formatIn, IntPtr to, uint formatOut, uint intent, uint flags);

    [LibraryImport(Library)]
    private static partial void cmsDoTransform(IntPtr transform, ReadOnlySpan<double> from, Span<double> to, uint count);

    [LibraryImport(Library, EntryPoint = "cmsDoTransform")]
    private static partial void cmsDoTransform16(IntPtr transform, ReadOnlySpan<ushort> from, Span<ushort> to, uint count);

    [LibraryImport(Library)]
    private static partial int cmsDetectBlackPoint(Span<double> xyz, IntPtr profile, uint intent, uint flags);

    [LibraryImport(Library)]
    private static partial int cmsDetectDestinationBlackPoint(Span<double> xyz, IntPtr profile, uint intent, uint flags);

    [LibraryImport(Library)]
    private static partial void cmsDeleteTransform(IntPtr transform);

    [LibraryImport(Library)]
    private static partial int cmsCloseProfile(IntPtr profile);
}
