using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Control;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Profiles;

namespace Goodsheet.App.Storage.Tables;

internal sealed class BenchTestTable : IEntityTypeConfiguration<BenchTest>
{
    public void Configure(EntityTypeBuilder<BenchTest> test)
    {
        test.Property(t => t.Id).ValueGeneratedNever();
        test.HasOne<Paper>().WithMany().HasForeignKey(t => t.Paper).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class InstrumentTable : IEntityTypeConfiguration<Instrument>
{
    public void Configure(EntityTypeBuilder<Instrument> instrument)
    {
        instrument.HasKey(i => i.Serial);
        instrument.Ignore(i => i.CertificateEnds);
    }
}

internal sealed class TileReadingTable : IEntityTypeConfiguration<TileReading>
{
    public void Configure(EntityTypeBuilder<TileReading> reading)
    {
        reading.Property(r => r.Id).ValueGeneratedNever();
        reading.HasOne<Instrument>().WithMany().HasForeignKey(r => r.Instrument).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PrinterEventTable : IEntityTypeConfiguration<PrinterEvent>
{
    public void Configure(EntityTypeBuilder<PrinterEvent> done)
    {
        done.Property(e => e.Id).ValueGeneratedNever();
        done.Ignore(e => e.InWords);
        done.HasOne<Printer>().WithMany().HasForeignKey(e => e.Printer).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class SettingTrialTable : IEntityTypeConfiguration<SettingTrial>
{
    public void Configure(EntityTypeBuilder<SettingTrial> trial)
    {
        trial.Property(t => t.Id).ValueGeneratedNever();
        trial.Ignore(t => t.Setting);
        trial.HasOne<Paper>().WithMany().HasForeignKey(t => t.Paper).OnDelete(DeleteBehavior.Restrict);
        trial.HasOne<Printer>().WithMany().HasForeignKey(t => t.Printer).OnDelete(DeleteBehavior.Restrict);
    }
}
