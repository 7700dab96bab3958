using Microsoft.EntityFrameworkCore;
using Microsoft.EntityFrameworkCore.Metadata.Builders;
using Goodsheet.Room.People;

namespace Goodsheet.App.Storage.Tables;

internal sealed class PersonTable : IEntityTypeConfiguration<Person>
{
    public void Configure(EntityTypeBuilder<Person> person)
    {
        person.HasKey(p => p.Name);
        person.Property(p => p.Guesses).IsConcurrencyToken(); // two guesses at once are two
    }
}

internal sealed class DeviceTable : IEntityTypeConfiguration<Device>
{
    public void Configure(EntityTypeBuilder<Device> device)
    {
        device.Property(d => d.Id).ValueGeneratedNever();
        device.HasIndex(d => d.TokenHash).IsUnique();
        device.HasOne<Person>().WithMany().HasForeignKey(d => d.Person).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class ApiKeyTable : IEntityTypeConfiguration<ApiKey>
{
    public void Configure(EntityTypeBuilder<ApiKey> key)
    {
        key.Property(k => k.Id).ValueGeneratedNever();
        key.HasIndex(k => k.KeyHash).IsUnique();
    }
}

internal sealed class PairingCodeTable : IEntityTypeConfiguration<PairingCode>
{
    public void Configure(EntityTypeBuilder<PairingCode> code)
    {
        code.HasKey(c => c.CodeHash);
        code.Property(c => c.Used).IsConcurrencyToken();
        code.Property(c => c.Tries).IsConcurrencyToken();
        code.HasOne<Person>().WithMany().HasForeignKey(c => c.Person).OnDelete(DeleteBehavior.Restrict);
    }
}

internal sealed class FormKeyTable : IEntityTypeConfiguration<FormKey>
{
    public void Configure(EntityTypeBuilder<FormKey> key) => key.HasKey(k => k.Name);
}
