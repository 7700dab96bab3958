using Goodsheet.Colour.Conversion;
using Goodsheet.Colour.Gamut;
using Goodsheet.Colour.Icc;
using Goodsheet.Colour.Printer;

namespace Goodsheet.Colour.Tests.Gamut;

public class GamutSolidTest
{
    // The faces' triangles against the published volume: 33 points an edge, and a white given to four digits.
    private const double AgainstPublished = 0.003;

    // Two ways to one volume: 33 points along an edge against 40 cells of the inside.
    private const double TwoWays = 0.003;

    private const double Rounding = 1e-9;

    [Fact]
    public void Finds_the_published_volume_of_a_wide_space()
    {
        // Adobe RGB (1998): 1,208,631 cubic units of dE*ab. B. Lindbloom, "Information About RGB Working Spaces".
        const double published = 1_208_631;
        var volume = GamutSolid.Of(new Through(IccProfile.Read(BuiltInProfiles.WideRgb()).Profile!)).Volume;
        Assert.InRange(volume, published * (1 - AgainstPublished), published * (1 + AgainstPublished));
    }

    [Fact]
    public void Finds_the_volume_and_the_outline_of_a_box()
    {
        var solid = GamutSolid.Of(new Box());
        Assert.InRange(solid.Volume, 60 * 80 * 100 * (1 - Rounding), 60 * 80 * 100 * (1 + Rounding));
        var outline = solid.Slice(35.3).Sum(piece => double.Hypot(piece.To.A - piece.From.A, piece.To.B - piece.From.B));
        Assert.Equal(2 * (80 + 100), outline, 9);
        Assert.Empty(solid.Slice(95));
    }

    [Fact]
    public void Agrees_with_the_volume_summed_over_the_inside()
    {
        var printer = InventedConditions.Gloss();
        var inside = SummedInside(printer, cells: 40);
        Assert.InRange(GamutSolid.Of(printer).Volume, inside * (1 - TwoWays), inside * (1 + TwoWays));
    }

    [Fact]
    public void Refuses_a_model_that_has_not_three_channels() =>
        Assert.Throws<ArgumentException>(() => GamutSolid.Of(InventedConditions.Gloss(4)));

    // The integral of |det J| over the device cube, by the midpoint rule; cells are finer towards the paper, where the
    // invented dots grow fastest.
    private static double SummedInside(NeugebauerPrinter printer, int cells)
    {
        const double half = 1e-5;
        var sum = 0.0;
        var device = new double[6 * 3];
        var lab = new double[6 * 3];
        for (var cell = 0; cell < cells * cells * cells; cell++)
        {
            for (var row = 0; row < 6; row++)
            {
                for (int c = 0, left = cell; c < 3; c++, left /= cells)
                {
                    var along = ((left % cells) + 0.5) / cells;
                    device[(3 * row) + c] = 1 - Math.Pow(along + (row / 2 == c ? half * (row % 2 == 0 ? 1 : -1) : 0), 1.6);
                }
            }

            printer.Predict(device, lab);
            double J(int c, int k) => (lab[(6 * c) + k] - lab[(6 * c) + 3 + k]) / (2 * half);
            sum += Math.Abs(
                (J(0, 0) * ((J(1, 1) * J(2, 2)) - (J(1, 2) * J(2, 1))))
                - (J(0, 1) * ((J(1, 0) * J(2, 2)) - (J(1, 2) * J(2, 0))))
                + (J(0, 2) * ((J(1, 0) * J(2, 1)) - (J(1, 1) * J(2, 0)))));
        }

        return sum / (cells * cells * cells);
    }

    private sealed class Through(IccProfile profile) : IPrinterModel
    {
        private readonly ColourTransform toLab = ColourTransform.ToLab(profile, RenderingIntent.RelativeColorimetric);

        public int Channels => 3;

        public void Predict(ReadOnlySpan<double> device, Span<double> lab) => toLab.Apply(device, lab);
    }

    // 60 by 80 by 100, and L* from 20 to 80.
    private sealed class Box : IPrinterModel
    {
        public int Channels => 3;

        public void Predict(ReadOnlySpan<double> device, Span<double> lab)
        {
            for (var i = 0; i < device.Length; i += 3)
            {
                (lab[i], lab[i + 1], lab[i + 2]) = (20 + (60 * device[i]), (80 * device[i + 1]) - 30, (100 * device[i + 2]) - 55);
            }
        }
    }
}
