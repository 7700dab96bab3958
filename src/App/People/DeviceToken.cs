using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;
using Goodsheet.Room.People;

namespace Goodsheet.App.People;

/// <summary>What a device that was let in brings with each request: 256 random bits, of which the room keeps the hash.</summary>
internal static class DeviceToken
{
    private const int Bytes = 32;
    private const int LongestName = 60;
    private static readonly TimeSpan WorkingDay = TimeSpan.FromHours(16);
    private static readonly TimeSpan Year = TimeSpan.FromDays(400); // as long as a browser keeps a cookie

    public static (string Token, Device Device) Admit(Admission how, PersonName person, string name, DateTimeOffset now)
    {
        var token = Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(Bytes));
        var plain = string.Concat(name.Where(c => !char.IsControl(c))).Trim();
        return (token, new()
        {
            Id = Guid.CreateVersion7(now),
            Name = plain.Length is 0 ? "a device" : plain.Length > LongestName ? plain[..LongestName] : plain,
            How = how,
            TokenHash = HashOf(token),
            Person = person,
            Since = now,
            Until = now + (how is Admission.Paired ? Year : WorkingDay),
        });
    }

    public static string HashOf(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
