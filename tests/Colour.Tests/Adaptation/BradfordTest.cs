using CsCheck;
using Goodsheet.Colour.Adaptation;
using Goodsheet.Colour.Colorimetry;

namespace Goodsheet.Colour.Tests.Adaptation;

public class BradfordTest
{
    [Fact]
    public void From_D65_to_D50_is_the_published_matrix()
    {
        // brucelindbloom.com, chromatic adaptation, printed with seven decimals: from memory.
        double[] published = [1.0478112, 0.0228866, -0.0501270, 0.0295424, 0.9904844, -0.0170491, -0.0092345, 0.0150436, 0.7521316];
        var found = new Bradford(Xyz.D65, new(96.422, 100, 82.521)).ToArray();
        Assert.All(published.Zip(found), p => Assert.Equal(p.First, p.Second, 1e-6));
    }

    [Fact]
    public void One_white_becomes_the_other()
    {
        var to = new Bradford(Xyz.D65, Xyz.D50).Apply(Xyz.D65);
        Assert.Equal(Xyz.D50.X, to.X, 1e-10);
        Assert.Equal(Xyz.D50.Z, to.Z, 1e-10);
    }

    [Fact]
    public void There_and_back_changes_nothing() =>
        Gen.Select(Gen.Double[0, 100], Gen.Double[0, 100], Gen.Double[0, 100]).Sample((x, y, z) =>
        {
            var back = new Bradford(Xyz.D50, Xyz.D65).Apply(new Bradford(Xyz.D65, Xyz.D50).Apply(new(x, y, z)));
            return Math.Abs(back.X - x) + Math.Abs(back.Y - y) + Math.Abs(back.Z - z) < 1e-9;
        });
}
