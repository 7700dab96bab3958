using System.Buffers.Binary;
using System.Security.Cryptography;
using System.Text;

namespace Goodsheet.Tests.Shared;

/// <summary>A second reading of profiles that shares nothing with ours: what a strict reader would find to say.</summary>
/// <remarks>Rules of ICC.1:2001-04 (version 2.4) and ICC.1:2022 (version 4.4), from memory of both.</remarks>
public static class IccStructure
{
    private static readonly string[] Classes = ["scnr", "mntr", "prtr", "spac"];
    private static readonly string[] TextTags = ["desc", "cprt"];
    private static readonly string[] TableTags = ["A2B0", "A2B1", "A2B2", "B2A0", "B2A1", "B2A2", "gamt"];
    private static readonly string[] RgbTags = ["rXYZ", "gXYZ", "bXYZ", "rTRC", "gTRC", "bTRC"];

    /// <summary>Everything that is wrong, in the order it is met; nothing for a good profile.</summary>
    public static IReadOnlyList<string> Findings(ReadOnlySpan<byte> profile) => new Reading(profile.ToArray()).All();

    private sealed class Reading(byte[] file)
    {
        private readonly List<string> found = [];
        private readonly List<(string Name, int Offset, int Size)> tags = [];
        private bool v4;

        private int Device => Word(16) switch { "GRAY" => 1, "CMYK" => 4, _ => 3 };

        public List<string> All()
        {
            if (file.Length < 132)
            {
                return [$"{file.Length} bytes are no profile"];
            }

            Header();
            if (!Table())
            {
                return found;
            }

            Required();
            foreach (var (name, offset, size) in tags)
            {
                try
                {
                    Tag(name, offset, size);
                }
                catch (Exception e) when (e is ArgumentException or IndexOutOfRangeException or OverflowException)
                {
                    found.Add($"{name}: its counts lead out of the file");
                }
            }

            return found;
        }

        private void Header()
        {
            v4 = file[8] == 4;
            Must(U32(0) == file.Length, $"header: size {U32(0)} of {file.Length} bytes");
            Must(file.Length % 4 == 0, "file: its length is no multiple of four");
            Must(file[8] is 2 or 4 && (file[9] & 0xF) == 0 && file[10] == 0 && file[11] == 0, "header: version");
            Must(Classes.Contains(Word(12)), $"header: class {Word(12)}");
            Must(Word(16) is "GRAY" or "RGB " or "CMYK" or "Lab ", $"header: space {Word(16)}");
            Must(Word(20) is "XYZ " or "Lab ", $"header: connection space {Word(20)}");
            Must(Word(36) == "acsp", "header: mark");
            var (y, m, d) = (U16(24), U16(26), U16(28));
            Must(y is >= 1990 and < 2200 && m is >= 1 and <= 12 && d >= 1 && d <= DateTime.DaysInMonth(y, m), $"header: date {y}-{m}-{d}");
            Must(U16(30) < 24 && U16(32) < 60 && U16(34) < 60, "header: time");
            Must((U32(44) & 0xFFFC) == 0, "header: flags that are reserved");
            Must(Zero(56, 4) && (U32(60) & 0xFFFFFFF0) == 0, "header: attributes that are reserved");
            Must(U32(64) <= 3, "header: intent");
            Must(U32(68) == 0xF6D6 && U32(72) == 0x10000 && U32(76) == 0xD32D, "header: illuminant is not D50");
            Must(Zero(100, 28), "header: reserved bytes");
            if (v4)
            {
                Must(file.AsSpan(84, 16).SequenceEqual(Id()), "header: profile ID is not that of the file");
            }
            else
            {
                Must(Zero(84, 16), "header: reserved bytes of version 2");
            }
        }

        private byte[] Id()
        {
            var copy = file.ToArray();
            Array.Clear(copy, 44, 4);
            Array.Clear(copy, 64, 4);
            Array.Clear(copy, 84, 16);
#pragma warning disable CA5351 // the standard asks for MD5
            return MD5.HashData(copy);
#pragma warning restore CA5351
        }

        private bool Table()
        {
            var count = U32(128);
            if (count > 100 || 132 + (12 * count) > file.Length)
            {
                found.Add($"tag table: {count} tags");
                return false;
            }

            for (var i = 0; i < count; i++)
            {
                var row = 132 + (12 * i);
                var (offset, size) = (U32(row + 4), U32(row + 8));
                if (offset < 132 + (12 * count) || size < 8 || offset + size > file.Length)
                {
                    found.Add($"tag table: {Word(row)} lies outside the file");
                    return false;
                }

                Must(offset % 4 == 0, $"{Word(row)}: starts at {offset}, no multiple of four");
                Must(tags.TrueForAll(t => t.Name != Word(row)), $"{Word(row)}: twice");
                tags.Add((Word(row), (int)offset, (int)size));
            }

            // Data in order without gaps: each element starts at the next multiple of four.
            var next = 132 + (12 * (int)count);
            foreach (var (offset, size) in tags.Select(t => (t.Offset, t.Size)).Distinct().Order())
            {
                Must(offset == next, $"data at {offset} do not follow on {next}");
                next = offset + ((size + 3) & ~3);
                Must(Zero(offset + size, Math.Min(next, file.Length) - offset - size), $"padding after {offset + size} is not zero");
            }

            Must(next == file.Length, $"file: {file.Length - next} bytes after the last tag");
            return true;
        }

        private void Required()
        {
            string[] always = ["desc", "cprt", "wtpt"];
            string[] byClass = (Word(12), Word(16)) switch
            {
                ("prtr", "GRAY") when Has("kTRC") => ["kTRC"],
                ("prtr", _) => TableTags,
                (_, "GRAY") => ["kTRC"],
                ("spac", _) => ["A2B0", "B2A0"],
                (_, "RGB ") when !Has("A2B0") => RgbTags,
                _ => ["A2B0"],
            };
            foreach (var name in always.Concat(byClass))
            {
                Must(Has(name), $"{name}: required and missing");
            }

            if (Has("rXYZ"))
            {
                Must(Word(20) == "XYZ ", "a matrix profile connects through XYZ");
            }

            Must(!(v4 && Has("bkpt")), "bkpt: version 4 has no such tag");
            Must(v4 || !Has("rig0"), "rig0: version 2 has no such tag");
        }

        private void Tag(string name, int at, int size)
        {
            Must(U32(at + 4) == 0, $"{name}: reserved bytes");
            var type = Word(at);
            switch (name)
            {
                case "desc" or "cprt" when v4:
                    Must(type == "mluc", $"{name}: type {type}");
                    Languages(name, at, size);
                    break;
                case "desc":
                    Must(type == "desc", $"{name}: type {type}");
                    OldDescription(at, size);
                    break;
                case "cprt" or "targ":
                    Must(type == "text" && file[at + size - 1] == 0 && file.AsSpan(at + 8, size - 9).IndexOfAnyExceptInRange((byte)1, (byte)126) < 0, $"{name}: is no ASCII text with its end");
                    break;
                case "wtpt":
                    Must(type == "XYZ " && size == 20, "wtpt: type");
                    White(at);
                    break;
                case "bkpt" or "rXYZ" or "gXYZ" or "bXYZ":
                    Must(type == "XYZ " && size == 20, $"{name}: type");
                    break;
                case "chad":
                    Must(type == "sf32" && size == 44, "chad: type");
                    break;
                case "rig0":
                    Must(type == "sig " && size == 12 && Word(at + 8) == "prmg", "rig0: form");
                    break;
                case "rTRC" or "gTRC" or "bTRC" or "kTRC":
                    Must(Curve(name, at) == size, $"{name}: length");
                    break;
                case var table when TableTags.Contains(table):
                    Lut(table, at, size);
                    break;
                default:
                    found.Add($"{name}: not a tag that belongs here");
                    break;
            }
        }

        private void White(int at)
        {
            var (x, y, z) = ((int)U32(at + 8), (int)U32(at + 12), (int)U32(at + 16));
            Must(x > 0 && z > 0 && y is > 0x4000 and <= 0x10000 + 0x800, "wtpt: no white of a paper");
            if (v4 && Word(12) == "mntr")
            {
                Must(x == 0xF6D6 && y == 0x10000 && z == 0xD32D, "wtpt: a version 4 screen has the adapted white, D50");
            }
        }

        private void Languages(string name, int at, int size)
        {
            var count = (int)U32(at + 8);
            Must(count >= 1 && U32(at + 12) == 12 && 16 + (12 * count) <= size, $"{name}: records");
            HashSet<string> seen = [];
            for (var i = 0; i < count && found.Count < 100; i++)
            {
                var record = at + 16 + (12 * i);
                var (length, offset) = (U32(record + 4), U32(record + 8));
                Must(file[record] is >= (byte)'a' and <= (byte)'z' && file[record + 2] is >= (byte)'A' and <= (byte)'Z', $"{name}: language");
                Must(seen.Add(Word(record)), $"{name}: the same language twice");
                Must(length % 2 == 0 && offset >= 16 + (12 * count) && offset + length <= size, $"{name}: text lies outside");
            }
        }

        private void OldDescription(int at, int size)
        {
            var ascii = (int)U32(at + 8);
            if (ascii < 1 || 12 + ascii + 78 > size || file[at + 12 + ascii - 1] != 0)
            {
                found.Add("desc: ASCII part");
                return;
            }

            var unicode = (int)U32(at + 12 + ascii + 4);
            Must(size == 12 + ascii + 8 + (2 * unicode) + 3 + 67, $"desc: {size} bytes are not its parts");
        }

        private void Lut(string name, int at, int size)
        {
            var toPcs = name[0] == 'A';
            var (inputs, outputs) = name == "gamt" ? (3, 1) : toPcs ? (Device, 3) : (3, Device);
            Must(file[at + 8] == inputs && file[at + 9] == outputs, $"{name}: channels");
            switch (Word(at))
            {
                case "mft2":
                    var (n, m, grid) = (U16(at + 48), U16(at + 50), file[at + 10]);
                    Must(n is >= 2 and <= 4096 && m is >= 2 and <= 4096 && grid >= 2 && file[at + 11] == 0, $"{name}: counts");
                    for (var i = 0; i < 9; i++)
                    {
                        Must(U32(at + 12 + (4 * i)) == (i % 4 == 0 ? 0x10000 : 0), $"{name}: its matrix must do nothing");
                    }

                    var nodes = (int)Math.Pow(grid, inputs);
                    Must(size == 52 + (2 * ((inputs * n) + (nodes * outputs) + (outputs * m))), $"{name}: length");
                    break;
                case "mAB " or "mBA ":
                    Must(v4, $"{name}: version 2 has no such type");
                    Must(Word(at) == (toPcs ? "mAB " : "mBA "), $"{name}: type {Word(at)}");
                    Rich(name, at, size, inputs, outputs);
                    break;
                case var type:
                    found.Add($"{name}: type {type}");
                    break;
            }
        }

        private void Rich(string name, int at, int size, int inputs, int outputs)
        {
            Must(U16(at + 10) == 0, $"{name}: reserved bytes");
            var (b, matrix, m, clut, a) = ((int)U32(at + 12), (int)U32(at + 16), (int)U32(at + 20), (int)U32(at + 24), (int)U32(at + 28));
            Must(b >= 32 && clut > 0 && a > 0 && matrix == 0 == (m == 0), $"{name}: parts");
            var (bs, others) = name[0] == 'A' ? (outputs, inputs) : (inputs, outputs);
            Must(new[] { b, matrix, m, clut, a }.All(o => o % 4 == 0 && o < size), $"{name}: a part is not at a multiple of four");
            Curves(name, at + b, bs, at + size);
            Curves(name, at + a, others, at + size);
            long nodes = outputs;
            for (var i = 0; i < 16; i++)
            {
                var points = file[at + clut + i];
                Must(i < inputs ? points >= 2 : points == 0, $"{name}: grid");
                nodes *= i < inputs ? points : 1;
            }

            Must(file[at + clut + 16] == 2 && Zero(at + clut + 17, 3), $"{name}: precision");
            Must(clut + 20 + (2 * nodes) <= size, $"{name}: table lies outside");
        }

        private void Curves(string name, int at, int count, int end)
        {
            for (var i = 0; i < count; i++)
            {
                at += (Curve(name, at) + 3) & ~3;
            }

            Must(at <= end + 3, $"{name}: curves lie outside");
        }

        // Its length in bytes.
        private int Curve(string name, int at)
        {
            switch (Word(at))
            {
                case "curv":
                    Must(U32(at + 4) == 0 && U32(at + 8) is 0 or 1 or (>= 2 and <= 65536), $"{name}: curve entries");
                    return 12 + (2 * (int)U32(at + 8));
                case "para":
                    Must(v4 && U32(at + 4) == 0 && U16(at + 8) <= 4 && U16(at + 10) == 0, $"{name}: parametric curve");
                    return 12 + (4 * new[] { 1, 3, 4, 5, 7 }[U16(at + 8)]);
                default:
                    found.Add($"{name}: a curve of type {Word(at)}");
                    return 12;
            }
        }

        private bool Has(string name) => tags.Exists(t => t.Name == name);

        private void Must(bool holds, string otherwise)
        {
            if (!holds)
            {
                found.Add(otherwise);
            }
        }

        private bool Zero(int at, int count) => !file.AsSpan(at, count).ContainsAnyExcept((byte)0);

        private string Word(int at) => Encoding.ASCII.GetString(file, at, 4);

        private int U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(file.AsSpan(at));

        private long U32(int at) => BinaryPrimitives.ReadUInt32BigEndian(file.AsSpan(at));
    }
}
