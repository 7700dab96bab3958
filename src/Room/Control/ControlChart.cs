namespace Goodsheet.Room.Control;

/// <summary>The control chart of one printing condition: a fold over its strips, oldest first.</summary>
/// <remarks>
/// A multivariate running mean (Lowry and others 1992) joined with limits for one strip alone (Shewhart, as T²), on the
/// centre of the strip's Lab shifts. The usual is learnt while it is used: each strip is held against the mean of those
/// before it and scaled by √(n/(n+1)), so that while nothing happens the scaled shifts are independent and have exactly
/// the house noise, from the second strip on (self-starting charts: Hawkins 1987; both from memory). Strips that raised
/// an alarm teach the chart nothing.
/// </remarks>
public sealed class ControlChart
{
    private readonly ControlLimits limits;
    private readonly IReadOnlyList<LabShift> named;
    private readonly double variance;
    private readonly bool knowsCentre;
    private readonly List<LabShift> learnt = [];
    private readonly List<double> shapes = [];
    private double patch = 1; // a patch's spread over what was believed before
    private readonly HouseNoise before;
    private HouseNoise noise;
    private LabShift[] directions; // whitened, of length 1
    private LabShift centre;
    private LabShift running; // whitened
    private double reach; // of the last step, in parts of the nearest limit
    private int readings;

    /// <summary>Begins a chart.</summary>
    /// <param name="noise">What strips differ by when nothing happens.</param>
    /// <param name="named">The directions in which causes move the centre, any length above 0.</param>
    /// <param name="limits">Where it says "moved".</param>
    /// <param name="knowsCentre">The usual is known to be no shift at all: nothing is learnt.</param>
    public ControlChart(HouseNoise noise, IReadOnlyList<LabShift> named, ControlLimits? limits = null, bool knowsCentre = false)
    {
        this.limits = limits ?? ControlLimits.Usual;
        (this.noise, before, this.knowsCentre) = (noise, noise, knowsCentre);
        variance = this.limits.Weight / (2 - this.limits.Weight);
        this.named = named;
        directions = Directions();
        readings = 1; // the reference chart itself
    }

    /// <summary>Strips so far that raised no alarm.</summary>
    public int Quiet => readings - 1;

    /// <summary>Reads the next strip.</summary>
    /// <param name="shift">The mean of its patches' shifts from their reference readings.</param>
    /// <param name="shape">Its patches about that mean, over what is usual (<see cref="StripShift.Shape"/>).</param>
    public ControlPoint Read(LabShift shift, double shape)
    {
        var off = shift - centre;
        var steps = (knowsCentre ? 1 : Math.Sqrt(readings / (readings + 1.0))) * noise.Whiten(off);
        shape /= patch;
        var alarms = Step(steps, shape, out var direction);
        var point = new ControlPoint(
            steps.Size, running.Size / Math.Sqrt(variance), shape, off, noise.Colour(running), alarms, direction, reach, knowsCentre || readings > ControlLimits.StartUp);
        if (alarms is Alarms.None && !knowsCentre)
        {
            Learn(shift, steps, shape);
        }

        return point;
    }

    /// <summary>Forgets where it was going, but not what is usual: what moved it was dealt with.</summary>
    public void BeginAgain() => running = default;

    /// <summary>One step of the chart on a shift that is whitened already: what alarms it raises.</summary>
    public Alarms Step(LabShift steps, double shape, out int? direction)
    {
        running += limits.Weight * (steps - running);
        var found = Alarms.None;
        if (LabShift.Dot(steps, steps) > limits.Jump)
        {
            found |= Alarms.Jump;
        }

        if (LabShift.Dot(running, running) > limits.Wander * variance)
        {
            found |= Alarms.Wander;
        }

        reach = Math.Max(
            Math.Max(steps.Size / Math.Sqrt(limits.Jump), running.Size / Math.Sqrt(limits.Wander * variance)), shape / limits.Shape);
        direction = null;
        var farthest = limits.Named * Math.Sqrt(variance);
        for (var i = 0; i < directions.Length; i++)
        {
            var along = Math.Abs(LabShift.Dot(running, directions[i]));
            reach = Math.Max(reach, along / (limits.Named * Math.Sqrt(variance)));
            if (along > farthest)
            {
                (farthest, direction) = (along, i);
                found |= Alarms.Named;
            }
        }

        return shape > limits.Shape ? found | Alarms.Shape : found;
    }

    private void Learn(LabShift shift, LabShift steps, double shape)
    {
        if (readings > ControlLimits.LearnsFor)
        {
            return;
        }

        readings++;
        centre += (1.0 / readings) * (shift - centre);
        if (readings <= ControlLimits.NoiseWorth)
        {
            learnt.Add(noise.Colour(steps));
            shapes.Add(shape);
            if (readings == ControlLimits.NoiseWorth)
            {
                var colour = noise.Colour(running);
                noise = HouseNoise.Learn(before, ControlLimits.NoiseWorth, learnt, shapes);
                patch = noise.Patch.L / before.Patch.L;
                (running, directions) = (noise.Whiten(colour), Directions());
            }
        }
    }

    private LabShift[] Directions() => [.. named.Select(noise.Whiten).Select(d => (1 / d.Size) * d)];
}
