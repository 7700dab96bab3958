using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>The profile a picture's colours are meant in: its own, or what is usual where it has none.</summary>
public static class PictureSource
{
    private const int MirroredAcross = 2; // orientations 1 and 2 are read row by row

    /// <summary>What a picture's file says of itself, and the profile its colours are meant in: what everything that looks at one begins with.</summary>
    internal static PictureResult<MeantPicture> Read(string path)
    {
        var probed = ImageFile.Probe(path);
        if (probed.Value is not { } image)
        {
            return probed.Fault!;
        }

        var source = ProfileOf(image);
        return source.Value is { } profile ? new MeantPicture(image, profile) : source.Fault!;
    }

    /// <summary>Looks at a picture with its profile; what is wrong with the file, or with a profile, is a fault.</summary>
    internal static PictureResult<T> Look<T>(string path, Func<IccProfile, T> look)
        where T : class
    {
        var read = Read(path);
        if (read.Value is not { } picture)
        {
            return read.Fault!;
        }

        try
        {
            return PictureResult<T>.Of(look(picture.Profile));
        }
        catch (ArgumentException e)
        {
            return new PictureFault(e.Message); // a profile has no way to colours or from them
        }
        catch (VipsException e)
        {
            return new PictureFault($"The picture's file is damaged: {ImageFile.FirstLine(e)}");
        }
    }

    public static PictureResult<IccProfile> ProfileOf(ImageFile image)
    {
        if (image.Profile is not { } embedded)
        {
            return image.Channels switch
            {
                1 => IccProfile.Read(BuiltInProfiles.Grey()).Profile!,
                3 => IccProfile.Read(BuiltInProfiles.SRgb()).Profile!,
                _ => new PictureFault("A CMYK picture without a profile: nobody can know its colours. Ask for one with its profile."),
            };
        }

        var read = IccProfile.Read(embedded);
        if (read.Profile is not { } profile)
        {
            return new PictureFault($"The profile in the file is damaged at byte {read.Fault!.Offset}: {read.Fault.Message}");
        }

        return profile.Header.Space.Channels() == image.Channels
            ? profile
            : new PictureFault($"The profile in the file is for {profile.Header.Space}, but the picture has {image.Channels} channels.");
    }

    /// <summary>Opens a picture upright and on white where it is transparent, to be read once from top to bottom; the caller disposes it.</summary>
    /// <remarks>A picture that has to be turned is read whole first: in memory when it is small, by way of a temporary file when not.</remarks>
    internal static Image Upright(string path)
    {
        using var opened = Open(path, Enums.Access.Sequential);
        using var turnable = ImageFile.OrientationOf(opened) > MirroredAcross ? Open(path, Enums.Access.Random) : opened.Copy();
        using var turned = turnable.Autorot();
        return turned.HasAlpha() ? turned.Flatten(background: [turned.Format == Enums.BandFormat.Uchar ? 255 : 65535]) : turned.Copy();
    }

    /// <summary>Opens a picture that has no transparency and no orientation of its own, turned by a quarter clockwise.</summary>
    internal static Image Turned(string path)
    {
        using var opened = Open(path, Enums.Access.Random);
        return opened.Rot90();
    }

    private static Image Open(string path, Enums.Access access) => ImageFile.Open(path, access, out _) ?? throw new VipsException("not a picture");
}

/// <summary>A picture's file, and the profile its colours are meant in.</summary>
internal sealed record MeantPicture(ImageFile Image, IccProfile Profile);
