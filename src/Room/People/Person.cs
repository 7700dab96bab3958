namespace Goodsheet.Room.People;

/// <summary>A person who works in the room.</summary>
/// <remarks>On the room's own machine a name is picked, not proved; from anywhere else it is proved by the secret.</remarks>
public sealed class Person
{
    /// <summary>So many wrong guesses are free; from then on each costs a wait.</summary>
    public const int FreeGuesses = 5;

    private static readonly TimeSpan FirstWait = TimeSpan.FromMinutes(1);
    private static readonly TimeSpan LongestWait = TimeSpan.FromHours(1);

    public required PersonName Name { get; init; }

    /// <summary>The PIN or password, hashed; none for a person who only works at the room's own machine.</summary>
    public string? SecretHash { get; set; }

    /// <summary>Guesses at the secret since it was last given rightly.</summary>
    public int Guesses { get; set; }

    /// <summary>Until then no guess is looked at.</summary>
    public DateTimeOffset? LockedUntil { get; set; }

    public required DateTimeOffset Since { get; init; }

    /// <summary>Someone who left keeps their lines in the ledger but cannot be picked any more.</summary>
    public bool Gone { get; set; }

    public bool IsLocked(DateTimeOffset now) => LockedUntil > now;

    /// <summary>Counts a guess before it is looked at, so that many sent at once are not more than many sent in turn.</summary>
    /// <remarks>After the free ones the wait doubles with each, to an hour: a PIN of six digits then holds for decades.</remarks>
    public void CountGuess(DateTimeOffset now)
    {
        Guesses++;
        if (Guesses >= FreeGuesses)
        {
            var doublings = Math.Min(Guesses - FreeGuesses, 6);
            var wait = FirstWait * (1 << doublings);
            LockedUntil = now + (wait < LongestWait ? wait : LongestWait);
        }
    }

    /// <summary>The secret was given rightly, or is a new one.</summary>
    public void ForgetGuesses() => (Guesses, LockedUntil) = (0, null);
}
