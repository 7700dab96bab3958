using System.Buffers.Binary;
using Goodsheet.App.Printing;

namespace Goodsheet.App.Tests.Printing;

/// <summary>A printer's answer damaged at random: read, or refused as no answer with the byte, and never anything else.</summary>
public sealed class MutatedIppTest
{
    private static readonly int Rounds = Environment.GetEnvironmentVariable("GOODSHEET_SLOW") == "1" ? 100_000 : 3_000;

    // An answer of some hundred bytes never takes more than this.
    private const long MostBytes = 1_000_000;

    [Fact]
    public void Is_read_or_refused_in_words()
    {
        var random = new Random(75); // seeded: a failure names its round, which replays
        var (read, refused) = (0, 0);
        var whole = Answer();
        for (var round = 0; round < Rounds; round++)
        {
            var bytes = Damaged(whole, random);
            var before = GC.GetAllocatedBytesForCurrentThread();
            try
            {
                var message = IppMessage.Read(bytes);
                _ = PrinterSays.Of(message.FirstOf(IppMessage.PrinterGroup));
                Assert.All(message.Groups, g => Assert.NotNull(g.Attributes));
                read++;
            }
            catch (InvalidDataException e)
            {
                Assert.False(string.IsNullOrWhiteSpace(e.Message), $"round {round}");
                refused++;
            }
            catch (Exception e) when (e is not Xunit.Sdk.XunitException)
            {
                Assert.Fail($"round {round}: {e}");
            }

            Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, MostBytes);
        }

        Assert.True(read > 0 && refused > 0, $"{read} read, {refused} refused: the changes test nothing");
    }

    // What a printer says of itself, with a collection in it (RFC 8010, section 3.1.6), which is passed over.
    private static byte[] Answer()
    {
        var answer = new IppMessage(0, 7);
        answer.Begin(IppMessage.OperationGroup).Charset("utf-8").Language("en");
        answer.Begin(IppMessage.PrinterGroup).Choice("printer-state", 3).Keyword("printer-state-reasons", "none", "marker-supply-low-warning")
            .Name("printer-info", "Invented").Keyword("marker-names", "cyan", "matte black").Number("marker-levels", 40).Number("", 7).Number("queued-job-count", 0);
        var bytes = answer.ToBytes();
        byte[] collection = [0x34, 0, 9, .. "media-col"u8, 0, 0, 0x4A, 0, 0, 0, 10, .. "media-size"u8, 0x34, 0, 0, 0, 0, 0x37, 0, 0, 0, 0, 0x37, 0, 0, 0, 0];
        return [.. bytes[..^1], .. collection, bytes[^1]];
    }

    private static byte[] Damaged(byte[] whole, Random random)
    {
        var bytes = whole.ToList();
        for (var change = random.Next(1, 4); change > 0 && bytes.Count > 4; change--)
        {
            var at = random.Next(bytes.Count);
            var length = Math.Min(random.Next(1, 12), bytes.Count - at);
            switch (random.Next(6))
            {
                case 0: bytes[at] = (byte)random.Next(256); break;
                case 1: bytes.RemoveRange(at, length); break;
                case 2: bytes.InsertRange(at, bytes.GetRange(at, length)); break;
                case 3: bytes[at] = (byte)(0x30 + random.Next(0x1A)); break; // another type
                case 4 when at + 2 <= bytes.Count:
                    var size = new byte[2];
                    BinaryPrimitives.WriteUInt16BigEndian(size, (ushort)(random.Next(2) == 0 ? random.Next(8) : random.Next(ushort.MaxValue)));
                    (bytes[at], bytes[at + 1]) = (size[0], size[1]);
                    break;
                default: bytes.RemoveRange(at, random.Next(4) == 0 ? bytes.Count - at : 0); break;
            }
        }

        return [.. bytes];
    }
}
