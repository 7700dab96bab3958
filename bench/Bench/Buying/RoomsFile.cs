using System.Globalization;

namespace Goodsheet.Bench.Buying;

/// <summary>What each invented room gave, kept line by line, so that a bench that was stopped goes on where it was.</summary>
internal sealed class RoomsFile(string path)
{
    private const string Heading = "seed,promised,given,stock,boxes,box_stock";

    private readonly Lock writing = new();

    public IReadOnlyDictionary<int, Room> Read()
    {
        if (!File.Exists(path))
        {
            File.WriteAllText(path, Heading + "\n");
        }

        return File.ReadLines(path).Skip(1).Select(line => line.Split(',')).Select(f => new Room(
            (int)Number(f[0]), Number(f[1]), Number(f[2]), Number(f[3]), (int)Number(f[4]), Number(f[5]))).ToDictionary(r => r.Seed);
    }

    public void Add(Room room)
    {
        lock (writing)
        {
            File.AppendAllText(path, string.Create(
                CultureInfo.InvariantCulture, $"{room.Seed},{room.Promised:0.000000},{room.Given:0.000000},{room.Stock:0.00},{room.Boxes},{room.BoxStock:0.00}\n"));
        }
    }

    private static double Number(string text) => double.Parse(text, CultureInfo.InvariantCulture);

    /// <param name="Promised">The part of what was wanted that the rule said it would give at once.</param>
    /// <param name="Stock">Its usual worth.</param>
    /// <param name="Boxes">The same number of every item that first gives as much.</param>
    internal sealed record Room(int Seed, double Promised, double Given, double Stock, int Boxes, double BoxStock);
}
