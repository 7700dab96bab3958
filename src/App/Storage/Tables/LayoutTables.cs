using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Layout;
using Goodsheet.Room.Printers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Storage.Tables;

internal sealed class LayoutSettingsTable : IEntityTypeConfiguration<LayoutSettings>
{
    public void Configure(EntityTypeBuilder<LayoutSettings> settings)
    {
        settings.HasKey(s => s.Id);
        settings.Property(s => s.Id).ValueGeneratedNever();
    }
}

internal sealed class LayoutStepTable : IEntityTypeConfiguration<LayoutStep>
{
    public void Configure(EntityTypeBuilder<LayoutStep> step)
    {
        step.HasKey(s => new { s.Run, s.Number });
        step.HasOne<Run>().WithMany().HasForeignKey(s => s.Run).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class FeedMarginsTable : IEntityTypeConfiguration<FeedMargins>
{
    public void Configure(EntityTypeBuilder<FeedMargins> margins)
    {
        margins.HasKey(m => new { m.Printer, m.Feed });
        margins.Ignore(m => m.Margins);
        margins.HasOne<Printer>().WithMany().HasForeignKey(m => m.Printer).OnDelete(DeleteBehavior.Restrict);
    }
}
