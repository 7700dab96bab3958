using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.App.Work;
using Goodsheet.Room.Care;
using Goodsheet.Room.Control;
using Goodsheet.Room.Papers;
using Goodsheet.Room.People;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Settings;

namespace Goodsheet.App.Storage.Tables;

internal sealed class SettingsTable : IEntityTypeConfiguration<RoomSettings>
{
    public void Configure(EntityTypeBuilder<RoomSettings> settings)
    {
        settings.HasKey(s => s.Id);
        settings.Property(s => s.Id).ValueGeneratedNever();
    }
}

internal sealed class DecisionTable : IEntityTypeConfiguration<Decision>
{
    public void Configure(EntityTypeBuilder<Decision> decision)
    {
        decision.Property(d => d.Id).ValueGeneratedNever();
        decision.HasIndex(d => d.About);
    }
}

internal sealed class PaperTable : IEntityTypeConfiguration<Paper>
{
    public void Configure(EntityTypeBuilder<Paper> paper)
    {
        paper.HasKey(p => p.Code);
        paper.Ignore(p => p.White);
    }
}

internal sealed class ClassRuleTable : IEntityTypeConfiguration<ClassRule>
{
    public void Configure(EntityTypeBuilder<ClassRule> rule)
    {
        rule.HasKey(r => r.Class);
        rule.Property(r => r.Class).ValueGeneratedNever();
    }
}

internal sealed class FormatTable : IEntityTypeConfiguration<Format>
{
    public void Configure(EntityTypeBuilder<Format> format)
    {
        format.HasKey(f => f.Code);
        format.Ignore(f => f.Unit);
    }
}

internal sealed class PrinterTable : IEntityTypeConfiguration<Printer>
{
    public void Configure(EntityTypeBuilder<Printer> printer) => printer.HasKey(p => p.Code);
}

internal sealed class LoadedTable : IEntityTypeConfiguration<Loaded>
{
    public void Configure(EntityTypeBuilder<Loaded> loaded)
    {
        loaded.HasKey(l => l.Printer);
        loaded.HasOne<Printer>().WithOne().HasForeignKey<Loaded>(l => l.Printer).OnDelete(DeleteBehavior.Restrict);
        loaded.HasOne<Room.Shelf.Lot>().WithMany().HasForeignKey(l => l.Lot).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ConditionTable : IEntityTypeConfiguration<PrintingCondition>
{
    public void Configure(EntityTypeBuilder<PrintingCondition> condition)
    {
        condition.HasKey(c => c.Code);
        condition.HasOne<Printer>().WithMany().HasForeignKey(c => c.Printer).OnDelete(DeleteBehavior.Restrict);
        condition.HasOne<Paper>().WithMany().HasForeignKey(c => c.Paper).OnDelete(DeleteBehavior.Restrict);
        condition.HasOne<Tolerance>().WithMany().HasForeignKey(c => c.Tolerance).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ToleranceTable : IEntityTypeConfiguration<Tolerance>
{
    public void Configure(EntityTypeBuilder<Tolerance> tolerance) => tolerance.HasKey(t => t.Name);
}

internal sealed class FingerprintTable : IEntityTypeConfiguration<Fingerprint>
{
    public void Configure(EntityTypeBuilder<Fingerprint> fingerprint)
    {
        fingerprint.HasKey(f => new { f.Condition, f.Number });
        fingerprint.HasOne<PrintingCondition>().WithMany().HasForeignKey(f => f.Condition).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class CareTaskTable : IEntityTypeConfiguration<CareTask>
{
    public void Configure(EntityTypeBuilder<CareTask> task)
    {
        task.HasKey(t => t.Number);
        task.Property(t => t.Number).ValueGeneratedNever();
        task.Ignore(t => t.StepList);
    }
}

internal sealed class CareBandsTable : IEntityTypeConfiguration<CareBands>
{
    public void Configure(EntityTypeBuilder<CareBands> bands)
    {
        bands.HasKey(b => b.Id);
        bands.Property(b => b.Id).ValueGeneratedNever();
    }
}

internal sealed class CareDoneTable : IEntityTypeConfiguration<CareDone>
{
    public void Configure(EntityTypeBuilder<CareDone> done)
    {
        done.Property(d => d.Id).ValueGeneratedNever();
        done.HasOne<CareTask>().WithMany().HasForeignKey(d => d.Task).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ClimateTable : IEntityTypeConfiguration<ClimateReading>
{
    public void Configure(EntityTypeBuilder<ClimateReading> climate) => climate.HasKey(c => c.At);
}

internal sealed class WorkTable : IEntityTypeConfiguration<WorkRecord>
{
    public void Configure(EntityTypeBuilder<WorkRecord> work)
    {
        work.Property(w => w.Id).ValueGeneratedNever();
        work.HasIndex(w => w.State);
    }
}
