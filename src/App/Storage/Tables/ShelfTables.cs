using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
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

internal sealed class ConsumableTable : IEntityTypeConfiguration<Consumable>
{
    public void Configure(EntityTypeBuilder<Consumable> consumable)
    {
        consumable.HasKey(c => c.Code);
        consumable.Ignore(c => c.GoesIntoPrinter);
        consumable.HasOne<Printer>().WithMany().HasForeignKey(c => c.Printer).OnDelete(DeleteBehavior.Restrict);
        consumable.HasOne<Supplier>().WithMany().HasForeignKey(c => c.Supplier).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ConsumableLotTable : IEntityTypeConfiguration<ConsumableLot>
{
    public void Configure(EntityTypeBuilder<ConsumableLot> lot)
    {
        lot.HasKey(l => new { l.Consumable, l.Number });
        lot.Property(l => l.Number).ValueGeneratedNever();
        lot.HasOne<Consumable>().WithMany().HasForeignKey(l => l.Consumable).OnDelete(DeleteBehavior.Restrict);
    }
}

/// <summary>Only added to, as the ledger of paper is.</summary>
internal sealed class ConsumableMoveTable : IEntityTypeConfiguration<ConsumableMove>
{
    public void Configure(EntityTypeBuilder<ConsumableMove> move)
    {
        move.ToTable(table =>
        {
            table.HasCheckConstraint("consumable_move_has_quantity", "quantity > 0");
            table.HasCheckConstraint("consumable_move_goes_somewhere", "\"from\" <> \"to\"");
        });
        move.HasKey(m => new { m.Consumable, m.Number });
        move.Property(m => m.Number).ValueGeneratedNever();
        move.HasIndex(m => new { m.Command, m.Consumable, m.Line }).IsUnique();
        move.HasOne<ConsumableLot>().WithMany().HasForeignKey(m => new { m.Consumable, m.Lot }).OnDelete(DeleteBehavior.Restrict);
        move.HasOne<CommandRecord>().WithMany().HasForeignKey(m => m.Command).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class CommandTable : IEntityTypeConfiguration<CommandRecord>
{
    public void Configure(EntityTypeBuilder<CommandRecord> command) => command.HasKey(c => c.Id);
}
