using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Papers;
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
