using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Storage.Tables;

internal sealed class SupplierTable : IEntityTypeConfiguration<Supplier>
{
    public void Configure(EntityTypeBuilder<Supplier> supplier) => supplier.HasKey(s => s.Code);
}

internal sealed class DispatchTable : IEntityTypeConfiguration<Dispatch>
{
    public void Configure(EntityTypeBuilder<Dispatch> way)
    {
        way.HasKey(w => new { w.Supplier, w.Name });
        way.HasOne<Supplier>().WithMany().HasForeignKey(w => w.Supplier).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ClosureTable : IEntityTypeConfiguration<SupplierClosure>
{
    public void Configure(EntityTypeBuilder<SupplierClosure> closure)
    {
        closure.HasKey(c => new { c.Supplier, c.Day });
        closure.HasOne<Supplier>().WithMany().HasForeignKey(c => c.Supplier).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PriceTable : IEntityTypeConfiguration<PriceLine>
{
    public void Configure(EntityTypeBuilder<PriceLine> price)
    {
        price.HasKey(p => new { p.Supplier, p.Paper, p.Format, p.From, p.FromPacks });
        price.HasOne<Supplier>().WithMany().HasForeignKey(p => p.Supplier).OnDelete(DeleteBehavior.Restrict);
        price.HasOne<Item>().WithMany().HasForeignKey(p => new { p.Paper, p.Format }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PurchaseTable : IEntityTypeConfiguration<PurchaseOrder>
{
    public void Configure(EntityTypeBuilder<PurchaseOrder> purchase)
    {
        purchase.HasKey(p => p.Number);
        purchase.Property(p => p.Number).ValueGeneratedNever();
        purchase.Property(p => p.State).IsConcurrencyToken();
        purchase.HasIndex(p => p.State);
        purchase.Ignore(p => p.IsOnTheWay);
        purchase.HasOne<Supplier>().WithMany().HasForeignKey(p => p.Supplier).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PurchaseLineTable : IEntityTypeConfiguration<PurchaseLine>
{
    public void Configure(EntityTypeBuilder<PurchaseLine> line)
    {
        line.HasKey(l => new { l.Order, l.Line });
        line.Ignore(l => l.Wanted).Ignore(l => l.Missing).Ignore(l => l.Sum);
        line.Property(l => l.Came).IsConcurrencyToken();
        line.HasOne<PurchaseOrder>().WithMany().HasForeignKey(l => l.Order).OnDelete(DeleteBehavior.Restrict);
        line.HasOne<Item>().WithMany().HasForeignKey(l => new { l.Paper, l.Format }).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class PiecesLineTable : IEntityTypeConfiguration<PiecesLine>
{
    public void Configure(EntityTypeBuilder<PiecesLine> line)
    {
        line.HasKey(l => new { l.Order, l.Line });
        line.Ignore(l => l.Missing).Ignore(l => l.Sum);
        line.Property(l => l.Came).IsConcurrencyToken();
        line.HasOne<PurchaseOrder>().WithMany().HasForeignKey(l => l.Order).OnDelete(DeleteBehavior.Restrict);
        line.HasOne<Consumable>().WithMany().HasForeignKey(l => l.Consumable).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class DeliveryTable : IEntityTypeConfiguration<Delivery>
{
    public void Configure(EntityTypeBuilder<Delivery> delivery)
    {
        delivery.HasKey(d => new { d.Supplier, d.Note });
        delivery.HasIndex(d => d.Order);
        delivery.HasOne<PurchaseOrder>().WithMany().HasForeignKey(d => d.Order).OnDelete(DeleteBehavior.Restrict);
    }
}
