using System.Collections.Immutable;

namespace Goodsheet.Colour.Measurement;

/// <summary>Why a file could not be read, worded for the person who has it in hand.</summary>
/// <param name="Line">The line of the file, from 1; 0 where it is about the file as a whole.</param>
/// <param name="Message">A sentence.</param>
public sealed record ReadFault(int Line, string Message);

/// <summary>Kinds of things that are odd about a file but leave it usable.</summary>
public enum ReadFindingKind
{
    /// <summary>Device values were taken to run to a certain top value.</summary>
    DeviceScale,

    /// <summary>Device values had been cut to few decimals and were put back to whole levels of 255.</summary>
    DeviceRounded,

    /// <summary>Reflectances were taken as percent.</summary>
    ReflectancePercent,

    /// <summary>The file does not say under which M-condition it was read.</summary>
    ConditionUnknown,

    /// <summary>Two rows share a sample id.</summary>
    RepeatedId,

    /// <summary>Rows do not follow the order of their ids; the order of the file was kept.</summary>
    ChartOrder,

    /// <summary>Numbers were written with a comma.</summary>
    DecimalComma,

    /// <summary>The text was not UTF-8 and was read as Windows-1252.</summary>
    OldEncoding,

    /// <summary>The first line names no format that we know.</summary>
    UnknownFormat,

    /// <summary>A count in the file does not fit its contents.</summary>
    WrongCount,

    /// <summary>The file holds more tables than the one that was read.</summary>
    MoreTables,

    /// <summary>The file holds readings under several M-conditions; one was taken.</summary>
    MoreConditions,

    /// <summary>A reflectance below zero or far above one.</summary>
    OddReflectance,
}

/// <summary>Something odd but usable. Nothing is repaired without one.</summary>
public sealed record ReadFinding(ReadFindingKind Kind, string Message);

/// <summary>What came of reading a file: a set with findings, or a fault. Never half of one.</summary>
public sealed record ReadResult
{
    internal ReadResult(MeasurementSet set, IEnumerable<ReadFinding> findings, IEnumerable<MCondition> conditions) =>
        (Set, Findings, Conditions) = (set, [.. findings], [.. conditions]);

    internal ReadResult(ReadFault fault) => Fault = fault;

    /// <summary>The measurements, or null where there is a <see cref="Fault"/>.</summary>
    public MeasurementSet? Set { get; }

    /// <summary>Why there is no set, or null where there is one.</summary>
    public ReadFault? Fault { get; }

    /// <summary>What is odd about the file; empty where there is a fault.</summary>
    public ImmutableArray<ReadFinding> Findings { get; } = [];

    /// <summary>All M-conditions of a file that holds the same patches under several; empty where there is one.</summary>
    public ImmutableArray<MCondition> Conditions { get; } = [];
}

/// <summary>What a measurement file may hold at most.</summary>
/// <param name="Bytes">Size of the file.</param>
/// <param name="Rows">Patches.</param>
/// <param name="Fields">Fields of a row.</param>
/// <param name="LineLength">Characters of a line.</param>
public sealed record ReadLimits(int Bytes = 32 << 20, int Rows = 100_000, int Fields = 1_000, int LineLength = 65_536);

/// <summary>Ends reading from any depth; caught in <see cref="MeasurementFile"/> and never seen outside.</summary>
internal sealed class FaultException(int line, string message) : Exception(message)
{
    public ReadFault Fault { get; } = new(line, message);
}
