using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Editions;
using Goodsheet.Room.Money;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Storage.Tables;

internal sealed class PlanSettingsTable : IEntityTypeConfiguration<PlanSettings>
{
    public void Configure(EntityTypeBuilder<PlanSettings> settings)
    {
        settings.HasKey(s => s.Id);
        settings.Property(s => s.Id).ValueGeneratedNever();
    }
}

internal sealed class RatesTable : IEntityTypeConfiguration<Rates>
{
    public void Configure(EntityTypeBuilder<Rates> rates)
    {
        rates.HasKey(r => r.Number);
        rates.Property(r => r.Number).ValueGeneratedNever();
    }
}

internal sealed class PaperPriceTable : IEntityTypeConfiguration<PaperPrice>
{
    public void Configure(EntityTypeBuilder<PaperPrice> price)
    {
        price.HasKey(p => new { p.Paper, p.From });
        price.HasOne<Paper>().WithMany().HasForeignKey(p => p.Paper).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ClientPriceTable : IEntityTypeConfiguration<ClientPrice>
{
    public void Configure(EntityTypeBuilder<ClientPrice> price)
    {
        price.HasKey(p => new { p.Client, p.Paper, p.From });
        price.HasOne<Client>().WithMany().HasForeignKey(p => p.Client).OnDelete(DeleteBehavior.Restrict);
        price.HasOne<Paper>().WithMany().HasForeignKey(p => p.Paper).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class OrderQuoteTable : IEntityTypeConfiguration<OrderQuote>
{
    public void Configure(EntityTypeBuilder<OrderQuote> quote)
    {
        quote.HasKey(q => new { q.Order, q.Number });
        quote.HasOne<Order>().WithMany().HasForeignKey(q => q.Order).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class EditionTable : IEntityTypeConfiguration<Edition>
{
    public void Configure(EntityTypeBuilder<Edition> edition)
    {
        edition.HasKey(e => e.Number);
        edition.Property(e => e.Number).ValueGeneratedNever();
        edition.HasIndex(e => new { e.Title, e.Artist }).IsUnique();
        edition.Ignore(e => e.HasManyProofs);
    }
}

internal sealed class NumberedPrintTable : IEntityTypeConfiguration<NumberedPrint>
{
    public void Configure(EntityTypeBuilder<NumberedPrint> print)
    {
        print.HasKey(p => new { p.Edition, p.Counted, p.Series, p.Number, p.Replacement });
        print.HasIndex(p => p.Code).IsUnique();
        print.HasOne<Edition>().WithMany().HasForeignKey(p => p.Edition).OnDelete(DeleteBehavior.Restrict);
        print.HasOne<Paper>().WithMany().HasForeignKey(p => p.Paper).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class RegisterKeyTable : IEntityTypeConfiguration<RegisterKey>
{
    public void Configure(EntityTypeBuilder<RegisterKey> key)
    {
        key.HasKey(k => k.Number);
        key.Property(k => k.Number).ValueGeneratedNever();
    }
}
