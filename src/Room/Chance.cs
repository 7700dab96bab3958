namespace Goodsheet.Room;

/// <summary>Quick seeded random numbers: xorshift64* (Vigna, "An experimental exploration of Marsaglia's xorshift generators", 2016, from memory).</summary>
/// <remarks>The searches draw several million a second, which the seeded <see cref="Random"/> is too slow for.</remarks>
internal struct Chance(int seed)
{
    private ulong state = unchecked(((ulong)(uint)seed * 0x9E3779B97F4A7C15UL) + 0xD1B54A32D192ED03UL);

    public ulong Next()
    {
        unchecked
        {
            state ^= state >> 12;
            state ^= state << 25;
            state ^= state >> 27;
            return state * 2685821657736338717UL;
        }
    }

    /// <summary>0 up to, not including, the limit.</summary>
    public int Below(int limit) => unchecked((int)((Next() >> 32) * (ulong)limit >> 32));

    public bool OneIn(int count) => Below(count) == 0;
}
