using Goodsheet.Colour.Icc;
using NetVips;

namespace Goodsheet.Imaging;

/// <summary>The profile a picture's colours are meant in: its own, or what is usual where it has none.</summary>
public static class PictureSource
{
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

    /// <summary>Opens a picture upright, without transparency, 16 bits a channel; the caller disposes it.</summary>
    internal static Image Upright(string path)
    {
        using var opened = ImageFile.Open(path, out _) ?? throw new VipsException("not a picture");
        using var turned = opened.Autorot();
        using var opaque = turned.HasAlpha() ? turned.Flatten(background: [turned.Format == Enums.BandFormat.Uchar ? 255 : 65535]) : turned.Copy();
        if (opaque.Format == Enums.BandFormat.Ushort)
        {
            return opaque.Copy();
        }

        using var wide = opaque * 257;
        return wide.Cast(Enums.BandFormat.Ushort);
    }
}
