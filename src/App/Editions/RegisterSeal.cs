using System.Security.Cryptography;
using System.Text;
using Microsoft.EntityFrameworkCore;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Editions;

namespace Goodsheet.App.Editions;

/// <summary>Signs the register's words and verifies them: ECDSA on P-256 with SHA-256 (FIPS 186-5), as the platform has it.</summary>
internal static class RegisterSeal
{
    private const string Letters = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"; // without I, L, O, U, which are misread

    /// <summary>The code of the print a command asked for: the same command has the same, so a repeated wish finds its print.</summary>
    public static string CodeOf(CommandId command)
    {
        var hash = SHA256.HashData(command.Value.ToByteArray());
        var text = string.Concat(hash.Take(12).Select(b => Letters[b % Letters.Length]));
        return $"{text[..4]}-{text[4..8]}-{text[8..]}";
    }

    /// <summary>The room's key, made when the first print is issued.</summary>
    public static async Task<RegisterKey> KeyAsync(RoomDb db, DateTimeOffset now, CancellationToken cancel)
    {
        var key = await db.RegisterKeys.OrderByDescending(k => k.Number).FirstOrDefaultAsync(cancel);
        if (key is null)
        {
            using var pair = ECDsa.Create(ECCurve.NamedCurves.nistP256);
            key = new() { Number = 1, MadeAt = now, Public = pair.ExportSubjectPublicKeyInfo(), Private = pair.ExportPkcs8PrivateKey() };
            db.RegisterKeys.Add(key);
        }

        return key;
    }

    public static string Sign(RegisterKey key, string words)
    {
        using var pair = ECDsa.Create();
        pair.ImportPkcs8PrivateKey(key.Private, out _);
        return Convert.ToBase64String(pair.SignData(Encoding.UTF8.GetBytes(words), HashAlgorithmName.SHA256));
    }

    public static bool Holds(byte[] publicKey, string words, string signature)
    {
        var bytes = new byte[128];
        if (!Convert.TryFromBase64String(signature.Trim(), bytes, out var length))
        {
            return false;
        }

        using var pair = ECDsa.Create();
        pair.ImportSubjectPublicKeyInfo(publicKey, out _);
        return pair.VerifyData(Encoding.UTF8.GetBytes(words), bytes.AsSpan(0, length), HashAlgorithmName.SHA256);
    }
}
