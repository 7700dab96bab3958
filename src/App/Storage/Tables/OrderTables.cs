using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Storage.Tables;

internal sealed class ReadingTable : IEntityTypeConfiguration<Reading>
{
    public void Configure(EntityTypeBuilder<Reading> reading)
    {
        reading.HasKey(r => r.Number);
        reading.Property(r => r.Number).ValueGeneratedNever();
        reading.HasOne<Paper>().WithMany().HasForeignKey(r => r.Paper).OnDelete(DeleteBehavior.Restrict);
        reading.HasOne<PrintingCondition>().WithMany().HasForeignKey(r => r.Condition).OnDelete(DeleteBehavior.Restrict);
        reading.HasOne<Room.Shelf.Lot>().WithMany().HasForeignKey(r => r.Lot).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ProfileTable : IEntityTypeConfiguration<Profile>
{
    public void Configure(EntityTypeBuilder<Profile> profile)
    {
        profile.HasKey(p => p.Number);
        profile.Property(p => p.Number).ValueGeneratedNever();
        profile.HasIndex(p => new { p.Condition, p.Version }).IsUnique();
        profile.HasOne<PrintingCondition>().WithMany().HasForeignKey(p => p.Condition).OnDelete(DeleteBehavior.Restrict);
        profile.HasOne<Reading>().WithMany().HasForeignKey(p => p.MadeFrom).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class StripReadingTable : IEntityTypeConfiguration<StripReading>
{
    public void Configure(EntityTypeBuilder<StripReading> strip)
    {
        strip.HasKey(s => s.Number);
        strip.Property(s => s.Number).ValueGeneratedNever();
        strip.HasOne<Profile>().WithMany().HasForeignKey(s => s.Profile).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ClientTable : IEntityTypeConfiguration<Client>
{
    public void Configure(EntityTypeBuilder<Client> client)
    {
        client.HasKey(c => c.Number);
        client.Property(c => c.Number).ValueGeneratedNever();
        client.HasIndex(c => c.Name).IsUnique();
    }
}

internal sealed class OrderTable : IEntityTypeConfiguration<Order>
{
    public void Configure(EntityTypeBuilder<Order> order)
    {
        order.HasKey(o => o.Number);
        order.Property(o => o.Number).ValueGeneratedNever();
        order.HasIndex(o => new { o.State, o.Promised });
        order.HasIndex(o => new { o.Client, o.Reference });
        order.HasOne<Client>().WithMany().HasForeignKey(o => o.Client).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PrintLineTable : IEntityTypeConfiguration<PrintLine>
{
    public void Configure(EntityTypeBuilder<PrintLine> line)
    {
        line.HasKey(l => new { l.Order, l.Line });
        line.Ignore(l => l.FullWidth).Ignore(l => l.FullHeight).Ignore(l => l.FinishedWidth).Ignore(l => l.FinishedHeight).Ignore(l => l.ToPrint).Ignore(l => l.CutAtSides).Ignore(l => l.CutAboveAndBelow);
        line.HasIndex(l => l.Command);
        line.HasOne<Order>().WithMany().HasForeignKey(l => l.Order).OnDelete(DeleteBehavior.Restrict);
        line.HasOne<Paper>().WithMany().HasForeignKey(l => l.Paper).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class TestStripTable : IEntityTypeConfiguration<TestStrip>
{
    public void Configure(EntityTypeBuilder<TestStrip> strip)
    {
        strip.HasKey(s => new { s.Order, s.Line, s.Number });
        strip.HasOne<PrintLine>().WithMany().HasForeignKey(s => new { s.Order, s.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class TileSetTable : IEntityTypeConfiguration<TileSet>
{
    public void Configure(EntityTypeBuilder<TileSet> tiles)
    {
        tiles.HasKey(s => new { s.Order, s.Line, s.Number });
        tiles.HasOne<PrintLine>().WithMany().HasForeignKey(s => new { s.Order, s.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ProofSheetTable : IEntityTypeConfiguration<ProofSheet>
{
    public void Configure(EntityTypeBuilder<ProofSheet> sheet)
    {
        sheet.HasKey(s => new { s.Order, s.Line, s.Number });
        sheet.HasOne<PrintLine>().WithMany().HasForeignKey(s => new { s.Order, s.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class FindingTable : IEntityTypeConfiguration<Finding>
{
    public void Configure(EntityTypeBuilder<Finding> finding)
    {
        finding.HasKey(f => new { f.Order, f.Line, f.Number });
        finding.HasOne<PrintLine>().WithMany().HasForeignKey(f => new { f.Order, f.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class OrderFactTable : IEntityTypeConfiguration<OrderFact>
{
    public void Configure(EntityTypeBuilder<OrderFact> fact)
    {
        fact.HasKey(f => new { f.Order, f.Number });
        fact.HasOne<Order>().WithMany().HasForeignKey(f => f.Order).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class FinishStepTable : IEntityTypeConfiguration<FinishStep>
{
    public void Configure(EntityTypeBuilder<FinishStep> step)
    {
        step.HasKey(s => new { s.Order, s.Number });
        step.HasOne<Order>().WithMany().HasForeignKey(s => s.Order).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ComplaintTable : IEntityTypeConfiguration<Complaint>
{
    public void Configure(EntityTypeBuilder<Complaint> complaint)
    {
        complaint.HasKey(c => c.Number);
        complaint.Property(c => c.Number).ValueGeneratedNever();
        complaint.HasOne<PrintLine>().WithMany().HasForeignKey(c => new { c.Order, c.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class IntakeSettingsTable : IEntityTypeConfiguration<IntakeSettings>
{
    public void Configure(EntityTypeBuilder<IntakeSettings> settings)
    {
        settings.HasKey(s => s.Id);
        settings.Property(s => s.Id).ValueGeneratedNever();
    }
}

internal sealed class RunTable : IEntityTypeConfiguration<Run>
{
    public void Configure(EntityTypeBuilder<Run> run)
    {
        run.HasKey(r => r.Number);
        run.Property(r => r.Number).ValueGeneratedNever();
        run.HasIndex(r => r.State);
        run.HasOne<Printer>().WithMany().HasForeignKey(r => r.Printer).OnDelete(DeleteBehavior.Restrict);
        run.HasOne<Item>().WithMany().HasForeignKey(r => new { r.Paper, r.Format }).OnDelete(DeleteBehavior.Restrict);
        run.HasOne<PrintingCondition>().WithMany().HasForeignKey(r => r.Condition).OnDelete(DeleteBehavior.Restrict);
        run.HasOne<Profile>().WithMany().HasForeignKey(r => r.Profile).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class RunPrintTable : IEntityTypeConfiguration<RunPrint>
{
    public void Configure(EntityTypeBuilder<RunPrint> print)
    {
        print.HasKey(p => new { p.Run, p.Order, p.Line });
        print.HasOne<Run>().WithMany().HasForeignKey(p => p.Run).OnDelete(DeleteBehavior.Restrict);
        print.HasOne<PrintLine>().WithMany().HasForeignKey(p => new { p.Order, p.Line }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class RunSheetTable : IEntityTypeConfiguration<RunSheet>
{
    public void Configure(EntityTypeBuilder<RunSheet> sheet)
    {
        sheet.HasKey(s => new { s.Run, s.Number });
        sheet.Ignore(s => s.JobName);
        sheet.HasOne<Run>().WithMany().HasForeignKey(s => s.Run).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class RunWasteTable : IEntityTypeConfiguration<RunWaste>
{
    public void Configure(EntityTypeBuilder<RunWaste> waste)
    {
        waste.HasKey(w => new { w.Run, w.Number });
        waste.HasOne<Run>().WithMany().HasForeignKey(w => w.Run).OnDelete(DeleteBehavior.Restrict);
    }
}
