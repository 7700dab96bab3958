using System.Globalization;
using System.Security.Cryptography;
using System.Text;

namespace Goodsheet.App.People;

/// <summary>A PIN or password as it is kept: "pbkdf2-sha512$iterations$salt$hash".</summary>
/// <remarks>
/// PBKDF2 (RFC 8018) because the platform has it and has no memory-hard function. The count follows the
/// OWASP password storage sheet for HMAC-SHA-512 (from memory). It is kept with each hash, so that it may rise.
/// </remarks>
internal static class HashedSecret
{
    private const string Kind = "pbkdf2-sha512";
    private const int Iterations = 210_000;
    private const int MostIterations = 10_000_000; // a damaged record must not hang a page
    private const int SaltBytes = 16;
    private const int HashBytes = 32;

    private static readonly string Nobody = Of("nobody has this secret");

    public static string Of(string secret)
    {
        var salt = RandomNumberGenerator.GetBytes(SaltBytes);
        return string.Create(CultureInfo.InvariantCulture,
            $"{Kind}${Iterations}${Convert.ToBase64String(salt)}${Convert.ToBase64String(Derive(secret, salt, Iterations))}");
    }

    /// <summary>Whether it is the secret. Takes as long for a person who has none, so that the time tells nothing.</summary>
    public static bool Matches(string? kept, string secret)
    {
        var parts = (kept ?? Nobody).Split('$');
        if (parts is not [Kind, var count, var salt, var hash]
            || !int.TryParse(count, NumberStyles.None, CultureInfo.InvariantCulture, out var iterations) || iterations is 0 or > MostIterations)
        {
            return false;
        }

        var same = CryptographicOperations.FixedTimeEquals(Derive(secret, Convert.FromBase64String(salt), iterations), Convert.FromBase64String(hash));
        return same && kept is not null;
    }

    // Keyboards write the same letter in more ways than one.
    private static byte[] Derive(string secret, byte[] salt, int iterations) => Rfc2898DeriveBytes.Pbkdf2(
        Encoding.UTF8.GetBytes(secret.Normalize(NormalizationForm.FormKC)), salt, iterations, HashAlgorithmName.SHA512, HashBytes);
}
