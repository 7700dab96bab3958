using System.Buffers.Binary;
using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Icc;

namespace Goodsheet.Colour.Tests.Icc;

/// <summary>Profiles damaged at random: refused with an offset, or usable. Never an exception, never memory without bound.</summary>
public class HostileProfileTest
{
    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 3_000;

    // A file of a few hundred kB never takes more than this to read: tables are widened to 16 bits, curves kept once.
    private const long MostBytes = 32_000_000;

    [Fact]
    public void No_mutation_makes_the_reader_throw_or_take_memory_without_bound()
    {
        byte[][] seeds =
        [
            .. from space in (ColourSpace[])[ColourSpace.Grey, ColourSpace.Rgb, ColourSpace.Cmyk]
               from version in Enum.GetValues<IccVersion>()
               select IccProfileWriter.Write(InventedPrinters.Profile(space, gridToPcs: 3, gridFromPcs: 3), version),
            BuiltInProfiles.SRgb(IccVersion.V2), BuiltInProfiles.SRgb(IccVersion.V4), BuiltInProfiles.Grey(), Published.Bytes("sGrey-v4.icc"),
        ];
        var random = new Random(31); // seeded: a failure names its round, which replays
        var sound = 0;
        for (var round = 0; round < Rounds; round++)
        {
            var bytes = Damaged(seeds[random.Next(seeds.Length)], random);
            var before = GC.GetAllocatedBytesForCurrentThread();
            var reading = IccProfile.Read(bytes);
            Assert.True(reading.Profile is null != reading.Fault is null, $"round {round}");
            if (reading.Profile is { } profile)
            {
                sound++;
                Use(profile, round);
            }
            else
            {
                Assert.True(reading.Fault!.Offset >= 0 && reading.Fault.Offset <= bytes.Length && reading.Fault.Message.Length > 0, $"round {round}");
            }

            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, MostBytes);
        }

        Assert.True(sound > Rounds / 20, "next to nothing was usable: the use of damaged profiles was not tested");
    }

    private static void Use(IccProfile profile, int round)
    {
        foreach (var intent in Enum.GetValues<RenderingIntent>())
        {
            if (profile.ToPcs(intent) is { } to)
            {
                var lab = new double[3];
                ColourTransform.ToLab(profile, intent).Apply(Enumerable.Repeat(0.4, to.Inputs).ToArray(), lab);
            }

            if (profile.FromPcs(intent) is { } from)
            {
                var device = new double[from.Outputs];
                ColourTransform.FromLab(profile, intent).Apply([50, 10, -20], device);
                Assert.True(profile.Header.Space is ColourSpace.Lab or ColourSpace.Xyz || device.All(d => d is >= 0 and <= 1), $"round {round}: {string.Join(' ', device)}");
            }
        }
    }

    private static byte[] Damaged(byte[] seed, Random random)
    {
        var bytes = (byte[])seed.Clone();
        uint[] odd = [0, 1, 2, 0x7FFFFFFF, 0x80000000, 0xFFFFFFFF, (uint)bytes.Length, (uint)bytes.Length - 4, 0x00010000];
        for (var change = random.Next(1, 5); change > 0; change--)
        {
            // Half of the damage goes where counts, offsets and types stand.
            var at = random.Next(2) == 0 ? random.Next(Math.Min(400, bytes.Length - 4)) : random.Next(bytes.Length - 4);
            switch (random.Next(4))
            {
                case 0:
                    BinaryPrimitives.WriteUInt32BigEndian(bytes.AsSpan(at & ~3), odd[random.Next(odd.Length)]);
                    break;
                case 1:
                    bytes.AsSpan(random.Next(bytes.Length - 4), 4).CopyTo(bytes.AsSpan(at));
                    break;
                case 2 when change == 1 && random.Next(3) == 0:
                    return bytes[..random.Next(bytes.Length)];
                default:
                    bytes[at] = (byte)random.Next(256);
                    break;
            }
        }

        return bytes;
    }
}
