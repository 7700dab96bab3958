using CsCheck;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Tests.Colorimetry;

public class XyzTest
{
    [Fact]
    public void Red_of_sRGB_has_the_Lab_that_Lindbloom_prints()
    {
        // brucelindbloom.com, CIE colour calculator, sRGB red under D65: from memory; half its last digit and that of the XYZ.
        var lab = new Xyz(41.2456, 21.2673, 1.9334).ToLab(Xyz.D65);
        Assert.Equal(53.2408, lab.L, 1e-3);
        Assert.Equal(80.0925, lab.A, 2e-3);
        Assert.Equal(67.2032, lab.B, 2e-3);
    }

    [Fact]
    public void Lab_comes_back_from_XYZ() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[-100, 100], Gen.Double[-100, 100]).Sample((l, a, b) =>
        {
            var back = new Lab(l, a, b).ToXyz(Xyz.D50).ToLab(Xyz.D50);
            return Math.Abs(back.L - l) < 1e-9 && Math.Abs(back.A - a) < 1e-9 && Math.Abs(back.B - b) < 1e-9;
        });

    [Fact]
    public void The_foot_of_f_joins_the_cube_root_without_a_step()
    {
        var joint = Math.Pow(24.0 / 116, 3);
        Assert.Equal(CieLab.F(joint * (1 - 1e-12)), CieLab.F(joint * (1 + 1e-12)), 1e-11);
    }

    [Theory]
    [InlineData(1, 0, 0)]
    [InlineData(0, 1, 90)]
    [InlineData(0, -1, 270)]
    public void Hue_runs_round_from_red(double a, double b, double degrees) =>
        Assert.Equal(degrees, new Lab(50, a, b).HueDegrees, 1e-12);
}
