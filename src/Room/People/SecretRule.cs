namespace Goodsheet.Room.People;

/// <summary>What may be a PIN or a password.</summary>
/// <remarks>Lengths are common practice; guesses are held off by the wait, not by the length alone.</remarks>
public static class SecretRule
{
    public const int LeastDigits = 6;
    public const int LeastLetters = 8;
    public const int Most = 128;

    /// <summary>Why it may not be one; null when it may.</summary>
    public static Refusal? Check(string secret)
    {
        if (secret.Length > Most)
        {
            return new TooLong();
        }

        if (!secret.All(char.IsAsciiDigit))
        {
            return secret.Length < LeastLetters ? new TooShort() : null;
        }

        return secret.Length < LeastDigits ? new TooShort() : IsARun(secret) ? new TooPlain() : null;
    }

    // 000000, 123456, 654321: what is tried first.
    private static bool IsARun(string digits)
    {
        var steps = digits.Zip(digits.Skip(1), (one, next) => next - one).Distinct().ToList();
        return steps is [-1 or 0 or 1];
    }

    public sealed record TooShort() : Refusal($"A PIN has {LeastDigits} digits or more, a password {LeastLetters} characters or more.");

    public sealed record TooLong() : Refusal($"More than {Most} characters cannot be kept.");

    public sealed record TooPlain() : Refusal("Digits in a row, or all alike, are what is tried first. Take others.");
}
