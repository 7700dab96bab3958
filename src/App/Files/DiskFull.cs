using Microsoft.Data.Sqlite;
using Npgsql;

namespace Goodsheet.App.Files;

/// <summary>The room's disk has no space for what was asked. Nothing of it was kept.</summary>
public sealed class DiskFullException(string message) : IOException(message);

public static class DiskFull
{
    private const int SqliteFull = 13;
    private const int NoSpaceLeft = 28; // ENOSPC
    private const int WindowsDiskFull = unchecked((int)0x80070070);
    private const int WindowsHandleDiskFull = unchecked((int)0x80070027);

    /// <summary>Whether this, or what caused it, is a full disk.</summary>
    public static bool IsCauseOf(Exception? e) => e switch
    {
        null => false,
        DiskFullException => true,
        SqliteException { SqliteErrorCode: SqliteFull } => true,
        PostgresException { SqlState: PostgresErrorCodes.DiskFull } => true,
        IOException { HResult: NoSpaceLeft or WindowsDiskFull or WindowsHandleDiskFull } => true,
        _ => IsCauseOf(e.InnerException),
    };
}
