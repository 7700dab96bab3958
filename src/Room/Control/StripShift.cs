namespace Goodsheet.Room.Control;

/// <summary>A strip against its reference readings, brought down to what the chart needs.</summary>
/// <param name="Centre">The mean shift of its patches.</param>
/// <param name="Shape">How far the patches stand from that mean: root mean square over the usual spread of a patch.</param>
/// <param name="Patches">How many patches it has.</param>
public sealed record StripShift(LabShift Centre, double Shape, int Patches)
{
    /// <summary>Reduces the shifts of a strip's patches.</summary>
    /// <param name="shifts">One a patch: as read now, less the reference reading of the same patch. Two or more.</param>
    /// <param name="noise">The house noise, for the usual spread of a patch.</param>
    public static StripShift Of(IReadOnlyList<LabShift> shifts, HouseNoise noise)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(shifts.Count, 2);
        LabShift sum = default;
        foreach (var shift in shifts)
        {
            sum += shift;
        }

        var centre = (1.0 / shifts.Count) * sum;
        double squares = 0;
        foreach (var shift in shifts)
        {
            var off = shift - centre;
            var (l, a, b) = (off.L / noise.Patch.L, off.A / noise.Patch.A, off.B / noise.Patch.B);
            squares += (l * l) + (a * a) + (b * b);
        }

        return new(centre, Math.Sqrt(squares / (3.0 * (shifts.Count - 1))), shifts.Count);
    }
}
