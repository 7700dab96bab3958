namespace Goodsheet.Colour.Icc;

/// <summary>Input curves, a colour table and output curves: what a printer profile's tables are made of.</summary>
/// <remarks>
/// Lab at either end is in the encoding of version 4 (<see cref="PcsEncoding.LabV4"/>), whichever version is written:
/// the writer converts. In lutAToBType the input curves are the A curves and the output curves the B curves; in
/// lutBToAType it is the other way about; in lut16Type they are the input and output tables.
/// </remarks>
public sealed record LutTable
{
    /// <summary>A table with its curves.</summary>
    /// <param name="inputCurves">One curve an input of the table.</param>
    /// <param name="table">The table.</param>
    /// <param name="outputCurves">One curve an output of the table.</param>
    /// <exception cref="ArgumentException">There are not as many curves as channels.</exception>
    public LutTable(IReadOnlyList<ToneCurve> inputCurves, Clut table, IReadOnlyList<ToneCurve> outputCurves)
    {
        ArgumentNullException.ThrowIfNull(inputCurves);
        ArgumentNullException.ThrowIfNull(table);
        ArgumentNullException.ThrowIfNull(outputCurves);
        if (inputCurves.Count != table.Inputs || outputCurves.Count != table.Outputs)
        {
            throw new ArgumentException(
                $"The table has {table.Inputs} inputs and {table.Outputs} outputs, but {inputCurves.Count} and {outputCurves.Count} curves.", nameof(table));
        }

        (InputCurves, Table, OutputCurves) = (inputCurves, table, outputCurves);
    }

    /// <summary>One curve an input.</summary>
    public IReadOnlyList<ToneCurve> InputCurves { get; }

    /// <summary>The table.</summary>
    public Clut Table { get; }

    /// <summary>One curve an output.</summary>
    public IReadOnlyList<ToneCurve> OutputCurves { get; }

    /// <summary>The table as stages, from numbers of 0 to 1 to numbers of 0 to 1.</summary>
    /// <param name="how">How values between the nodes are found.</param>
    public Pipeline ToPipeline(Interpolation how = Interpolation.Tetrahedral) =>
        new(new CurveStage(InputCurves), new ClutStage(Table, how), new CurveStage(OutputCurves));
}
