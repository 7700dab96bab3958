using System.Security.Cryptography;

namespace Goodsheet.Colour.Icc;

/// <summary>The profile ID of ICC.1 (clause 7.2.18, from memory): what tells one profile from another.</summary>
public static class ProfileId
{
    /// <summary>Where the ID stands in the header, 16 bytes.</summary>
    public const int Offset = 84;

    /// <summary>The MD5 of the profile with its flags, its intent and the ID itself taken as zero.</summary>
    /// <param name="profile">The whole profile, 128 bytes or more.</param>
    /// <returns>16 bytes.</returns>
    /// <exception cref="ArgumentException">There are fewer than 128 bytes.</exception>
    public static byte[] Of(ReadOnlySpan<byte> profile)
    {
        if (profile.Length < IccHeader.Length)
        {
            throw new ArgumentException("A profile has at least a header.", nameof(profile));
        }

        var copy = profile.ToArray();
        copy.AsSpan(44, 4).Clear();
        copy.AsSpan(64, 4).Clear();
        copy.AsSpan(Offset, 16).Clear();
#pragma warning disable CA5351 // the standard asks for MD5; it names a file here and guards nothing
        return MD5.HashData(copy);
#pragma warning restore CA5351
    }
}
