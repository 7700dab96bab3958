namespace Goodsheet.Colour.Icc;

/// <summary>Stages one after another. Immutable, and may be used from several threads at once.</summary>
public sealed class Pipeline
{
    private readonly Stage[] stages;

    /// <summary>A pipeline of the given stages.</summary>
    /// <exception cref="ArgumentException">There is none, or what one gives is not what the next one takes.</exception>
    public Pipeline(params IEnumerable<Stage> stages)
    {
        this.stages = [.. stages];
        for (var i = 1; i < this.stages.Length; i++)
        {
            if (this.stages[i - 1].Outputs != this.stages[i].Inputs)
            {
                throw new ArgumentException($"Stage {i} gives {this.stages[i - 1].Outputs} channels, the next takes {this.stages[i].Inputs}.", nameof(stages));
            }
        }

        if (this.stages.Length == 0)
        {
            throw new ArgumentException("A pipeline has at least one stage.", nameof(stages));
        }
    }

    /// <summary>The stages in order.</summary>
    public IReadOnlyList<Stage> Stages => stages;

    /// <summary>How many numbers go in.</summary>
    public int Inputs => stages[0].Inputs;

    /// <summary>How many numbers come out.</summary>
    public int Outputs => stages[^1].Outputs;

    /// <summary>Takes one colour through.</summary>
    /// <param name="from"><see cref="Inputs"/> numbers.</param>
    /// <param name="to">Filled with <see cref="Outputs"/> numbers; may be the same memory.</param>
    public void Apply(ReadOnlySpan<double> from, Span<double> to)
    {
        Span<double> one = stackalloc double[Stage.MostChannels];
        Span<double> other = stackalloc double[Stage.MostChannels];
        from[..Inputs].CopyTo(one);
        foreach (var stage in stages)
        {
            stage.Apply(one[..stage.Inputs], other[..stage.Outputs]);
            var read = one;
            one = other;
            other = read;
        }

        one[..Outputs].CopyTo(to);
    }
}
