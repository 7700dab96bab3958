using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Storage.Tables;

internal sealed class ItemTable : IEntityTypeConfiguration<Item>
{
    public void Configure(EntityTypeBuilder<Item> item)
    {
        item.HasKey(i => new { i.Paper, i.Format });
        item.Ignore(i => i.Code);
        item.HasOne<Paper>().WithMany().HasForeignKey(i => i.Paper).OnDelete(DeleteBehavior.Restrict);
        item.HasOne<Format>().WithMany().HasForeignKey(i => i.Format).OnDelete(DeleteBehavior.Restrict);
        item.HasOne<Supplier>().WithMany().HasForeignKey(i => i.Supplier).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class LotTable : IEntityTypeConfiguration<Lot>
{
    public void Configure(EntityTypeBuilder<Lot> lot)
    {
        lot.HasKey(l => l.Code);
        lot.Ignore(l => l.Item).Ignore(l => l.GoodUntil);
        lot.HasIndex(l => new { l.Paper, l.Format });
        lot.HasOne<Item>().WithMany().HasForeignKey(l => new { l.Paper, l.Format }).OnDelete(DeleteBehavior.Restrict);
    }
}

/// <summary>The ledger. Triggers in a migration of their own refuse an update and a delete.</summary>
internal sealed class MoveTable : IEntityTypeConfiguration<Move>
{
    public void Configure(EntityTypeBuilder<Move> move)
    {
        move.ToTable(table =>
        {
            table.HasCheckConstraint("move_has_quantity", "quantity > 0");
            table.HasCheckConstraint("move_goes_somewhere", "\"from\" <> \"to\"");
        });
        move.HasKey(m => new { m.Lot, m.Number });
        move.Property(m => m.Number).ValueGeneratedNever();
        move.HasIndex(m => new { m.Command, m.Line }).IsUnique();
        move.HasIndex(m => m.At);
        move.HasIndex(m => m.Reference);
        move.HasOne<Lot>().WithMany().HasForeignKey(m => m.Lot).OnDelete(DeleteBehavior.Restrict);
        move.HasOne<CommandRecord>().WithMany().HasForeignKey(m => m.Command).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class CheckpointTable : IEntityTypeConfiguration<LotBalance>
{
    public void Configure(EntityTypeBuilder<LotBalance> checkpoint)
    {
        checkpoint.HasKey(c => c.Lot);
        checkpoint.Ignore(c => c.InRoom).Ignore(c => c.CheckpointIsDue);
        checkpoint.Property(c => c.Through).IsConcurrencyToken();
        checkpoint.HasOne<Lot>().WithOne().HasForeignKey<LotBalance>(c => c.Lot).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class CommandTable : IEntityTypeConfiguration<CommandRecord>
{
    public void Configure(EntityTypeBuilder<CommandRecord> command) => command.HasKey(c => c.Id);
}
