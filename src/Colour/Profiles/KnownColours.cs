using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Profiles;

/// <summary>Device values all over the cube, on its surface and along the greys, with the colours they print: what tables to device values are fitted to.</summary>
/// <param name="Device">Rows of device values, 0 to 1.</param>
/// <param name="Colours">What each prints, relative to the paper.</param>
/// <param name="Weights">How much each channel of each counts.</param>
internal sealed record KnownColours(double[] Device, Lab[] Colours, double[] Weights)
{
    private const int Samples = 400_000;
    private const int NeutralSamples = 400;
    private const double Crowd = 2; // the power that draws half of the samples towards black
    private const double NeutralWeight = 25;
    private const double LeastWeight = 0.05;
    private const double MostWeight = 4;

    /// <summary>Of three channels.</summary>
    public static KnownColours Of(DeviceLattice lattice, Inversion inversion)
    {
        var channels = lattice.Channels;
        var random = new Random(Seed: 20261125);
        var count = Samples + NeutralSamples;
        var device = new double[count * channels];
        for (var i = 0; i < Samples * channels; i++)
        {
            // A third of the values lie on the surface of the cube or hard by it; half of them crowd towards black, where
            // a cell of the table holds little of the cube.
            var at = random.NextDouble();
            var value = at < 0.1 ? 0 : at > 0.9 ? 1 : (at - 0.1) / 0.8;
            device[i] = i / channels % 2 == 0 ? value : Math.Pow(value, Crowd);
        }

        var colours = new Lab[count];
        var blackest = lattice.Values.ToArray().Where((_, i) => i % 3 == 0).Min();
        Parallel.For(0, NeutralSamples, k =>
        {
            var grey = new Lab(blackest + ((100 - blackest) * k / (NeutralSamples - 1)), 0, 0);
            inversion.Find(grey, mayGoOver: false, double.NaN, device.AsSpan((Samples + k) * channels, channels));
        });
        var weights = new double[count * channels];
        var turns = new int[count];
        Parallel.For(0, count, i =>
        {
            Span<double> lab = stackalloc double[3];
            Span<double> slopes = stackalloc double[9];
            var at = device.AsSpan(i * channels, channels);
            lattice.Evaluate(at, lab);
            colours[i] = new(lab[0], lab[1], lab[2]);
            turns[i] = lattice.Turn(at);
            lattice.Slopes(at, slopes);
            for (var c = 0; c < channels; c++)
            {
                // What an error in this channel does to the colour, against 100 units over the whole channel.
                var slope = slopes.Slice(3 * c, 3);
                var moves = ((slope[0] * slope[0]) + (slope[1] * slope[1]) + (slope[2] * slope[2])) / 10_000;
                weights[(i * channels) + c] = Math.Clamp(moves, LeastWeight, MostWeight) * (i >= Samples ? NeutralWeight : 1);
            }
        });
        LeaveFolds(turns, weights, channels);
        return new(device, colours, weights);
    }

    // Hard by full ink more of it can lead back over colours that less of it prints. A table can hold one of two such ways
    // only: fitted to both it would lie half way between them, and print neither.
    private static void LeaveFolds(int[] turns, double[] weights, int channels)
    {
        var way = Math.Sign(turns.Sum());
        for (var i = 0; i < weights.Length; i++)
        {
            weights[i] *= turns[i / channels] == -way ? 0 : 1;
        }
    }
}
