namespace Goodsheet.Colour.Icc;

/// <summary>One step of a <see cref="Pipeline"/>. Immutable.</summary>
public abstract record Stage
{
    /// <summary>The most channels between two stages.</summary>
    public const int MostChannels = 4;

    /// <summary>How many numbers go in.</summary>
    public abstract int Inputs { get; }

    /// <summary>How many numbers come out.</summary>
    public abstract int Outputs { get; }

    /// <summary>Takes one colour through.</summary>
    /// <param name="from">The numbers that go in.</param>
    /// <param name="to">Filled with what comes out; other memory than <paramref name="from"/>.</param>
    public abstract void Apply(ReadOnlySpan<double> from, Span<double> to);
}

/// <summary>A curve for each channel.</summary>
/// <param name="Curves">One curve a channel, 1 to 4.</param>
public sealed record CurveStage(IReadOnlyList<ToneCurve> Curves) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => Curves.Count;

    /// <inheritdoc/>
    public override int Outputs => Curves.Count;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        for (var i = 0; i < Curves.Count; i++)
        {
            to[i] = Curves[i].Evaluate(from[i]);
        }
    }
}

/// <summary>A curve for each channel, read backwards.</summary>
/// <param name="Curves">One curve a channel, 1 to 4.</param>
public sealed record InverseCurveStage(IReadOnlyList<ToneCurve> Curves) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => Curves.Count;

    /// <inheritdoc/>
    public override int Outputs => Curves.Count;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        for (var i = 0; i < Curves.Count; i++)
        {
            to[i] = Curves[i].Invert(from[i]);
        }
    }
}

/// <summary>Three channels through a matrix.</summary>
/// <param name="Matrix">The matrix with its offset.</param>
public sealed record MatrixStage(Matrix3 Matrix) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => 3;

    /// <inheritdoc/>
    public override int Outputs => 3;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to) => Matrix.Apply(from, to);
}

/// <summary>A colour lookup table.</summary>
/// <param name="Table">The table.</param>
/// <param name="How">How values between its nodes are found.</param>
public sealed record ClutStage(Clut Table, Interpolation How) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => Table.Inputs;

    /// <inheritdoc/>
    public override int Outputs => Table.Outputs;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to) => Table.Evaluate(from, How, to);
}

/// <summary>From a colour to the numbers of 0 to 1 that tables work in, or back.</summary>
/// <param name="Encoding">Which encoding.</param>
/// <param name="Decodes">True from numbers to the colour, false from the colour to numbers.</param>
public sealed record EncodingStage(PcsEncoding Encoding, bool Decodes) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => 3;

    /// <inheritdoc/>
    public override int Outputs => 3;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        if (Decodes)
        {
            Encoding.Decode(from, to);
        }
        else
        {
            Encoding.Encode(from, to);
        }
    }
}

/// <summary>One grey channel to a colour along a line from black: the channel times <paramref name="White"/>.</summary>
/// <param name="White">The colour of 1: three numbers.</param>
public sealed record SpreadStage(XyzNumber White) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => 1;

    /// <inheritdoc/>
    public override int Outputs => 3;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to) =>
        (to[0], to[1], to[2]) = (from[0] * White.X, from[0] * White.Y, from[0] * White.Z);
}

/// <summary>A colour to one grey channel: one of its numbers, divided by that of white.</summary>
/// <param name="Channel">Which of the three numbers, from 0.</param>
/// <param name="White">That number for white.</param>
public sealed record PickStage(int Channel, double White) : Stage
{
    /// <inheritdoc/>
    public override int Inputs => 3;

    /// <inheritdoc/>
    public override int Outputs => 1;

    /// <inheritdoc/>
    public override void Apply(ReadOnlySpan<double> from, Span<double> to) => to[0] = from[Channel] / White;
}
