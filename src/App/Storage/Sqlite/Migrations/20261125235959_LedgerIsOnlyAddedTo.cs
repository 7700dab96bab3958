using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Goodsheet.App.Storage.Sqlite.Migrations;

/// <summary>The store itself refuses to change or take away what is in the ledger. Written by hand: no model holds triggers.</summary>
[DbContext(typeof(SqliteRoomDb))]
[Migration("20261125235959_LedgerIsOnlyAddedTo")]
public sealed class LedgerIsOnlyAddedTo : Migration
{
    /// <inheritdoc />
    protected override void Up(MigrationBuilder migrationBuilder)
    {
        foreach (var table in (string[])["move", "consumable_move", "command_record", "decision"])
        {
            migrationBuilder.Sql($"""
                CREATE TRIGGER {table}_stays_as_written BEFORE UPDATE ON {table}
                BEGIN SELECT RAISE(ABORT, 'The ledger is only added to.'); END;
                """);
            migrationBuilder.Sql($"""
                CREATE TRIGGER {table}_stays BEFORE DELETE ON {table}
                BEGIN SELECT RAISE(ABORT, 'The ledger is only added to.'); END;
                """);
        }
    }
}
