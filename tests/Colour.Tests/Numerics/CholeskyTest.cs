using Goodsheet.Colour.Numerics;

namespace Goodsheet.Colour.Tests.Numerics;

public class CholeskyTest
{
    // Well-conditioned matrices of a few hundred rows lose three or four of sixteen digits.
    private const double Rounding = 1e-11;

    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(127)]
    [InlineData(128)]
    [InlineData(129)]
    [InlineData(301)]
    public void Solves_what_it_factored_at_every_size_around_its_blocks(int n)
    {
        var random = new Random(n);
        var stride = Simd.Padded(n) + 4;
        var a = Positive(n, stride, random);
        var x = Enumerable.Range(0, n).Select(_ => random.NextDouble() - 0.5).ToArray();
        var b = Enumerable.Range(0, n).Select(i => Enumerable.Range(0, n).Sum(j => At(a, stride, i, j) * x[j])).ToArray();

        var factor = Factor((double[])a.Clone(), n, stride);
        factor.Solve([b]);
        Assert.All(b.Zip(x), p => Assert.Equal(p.Second, p.First, Rounding));
    }

    [Fact]
    public void The_diagonal_of_the_inverse_is_that_of_solving_for_each_unit()
    {
        const int N = 140;
        var a = Positive(N, N, new Random(3));
        var factor = Factor(a, N, N);
        var diagonal = factor.InverseDiagonal(TestContext.Current.CancellationToken);
        for (var i = 0; i < N; i++)
        {
            var unit = new double[N];
            unit[i] = 1;
            factor.Solve([unit]);
            Assert.Equal(unit[i], diagonal[i], Rounding);
        }
    }

    [Fact]
    public void Refuses_a_matrix_that_is_not_positive_definite() =>
        Assert.Throws<ArgumentException>(() => Factor([1, 0, 2, 1], 2, 2));

    [Fact]
    public void The_fast_exponential_is_that_of_the_runtime()
    {
        var random = new Random(1);
        for (var i = 0; i < 10_000; i++)
        {
            var x = -30 * random.NextDouble();
            Assert.Equal(1, Simd.ExpOfNegative(new(x))[0] / Math.Exp(x), 2e-11);
        }

        Assert.Equal(1, Simd.ExpOfNegative(new(0.0))[0]);
        Assert.InRange(Simd.ExpOfNegative(new(-1e9))[0], 0, 1e-300);
    }

    private static Cholesky Factor(double[] a, int n, int stride) =>
        Cholesky.Factor(a, n, stride, stop: TestContext.Current.CancellationToken);

    // Random, with its diagonal made heavy; the lower triangle is filled, the upper is left at 0.
    private static double[] Positive(int n, int stride, Random random)
    {
        var a = new double[n * stride];
        for (var i = 0; i < n; i++)
        {
            for (var j = 0; j < i; j++)
            {
                a[(i * stride) + j] = random.NextDouble() - 0.5;
            }

            a[(i * stride) + i] = n;
        }

        return a;
    }

    private static double At(double[] a, int stride, int i, int j) => i >= j ? a[(i * stride) + j] : a[(j * stride) + i];
}
