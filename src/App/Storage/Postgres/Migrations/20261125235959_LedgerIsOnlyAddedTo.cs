using Microsoft.EntityFrameworkCore.Infrastructure;
using Microsoft.EntityFrameworkCore.Migrations;

namespace Goodsheet.App.Storage.Postgres.Migrations;

/// <summary>The store itself refuses to change or take away what is in the ledger. Written by hand: no model holds triggers.</summary>
[DbContext(typeof(PostgresRoomDb))]
[Migration("20261125235959_LedgerIsOnlyAddedTo")]
public sealed class LedgerIsOnlyAddedTo : Migration
{
    /// <inheritdoc />
    protected override void Up(MigrationBuilder migrationBuilder)
    {
        migrationBuilder.Sql("""
            CREATE FUNCTION only_added_to() RETURNS trigger LANGUAGE plpgsql AS
            $$ BEGIN RAISE EXCEPTION 'The ledger is only added to.'; END $$;
            """);
        foreach (var table in (string[])["move", "consumable_move", "command_record", "decision"])
        {
            migrationBuilder.Sql($"""
                CREATE TRIGGER {table}_stays BEFORE UPDATE OR DELETE OR TRUNCATE ON {table}
                FOR EACH STATEMENT EXECUTE FUNCTION only_added_to();
                """);
        }
    }
}
