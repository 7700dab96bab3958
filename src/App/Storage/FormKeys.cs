using Microsoft.EntityFrameworkCore;

namespace Goodsheet.App.Storage;

/// <summary>The keys that forms are signed with, read and added to. The web framework asks for them where it cannot wait.</summary>
public sealed class FormKeys(RoomStore room)
{
    public IReadOnlyList<string> All()
    {
        using var db = room.Open();
        return [.. db.FormKeys.AsNoTracking().OrderBy(k => k.Name).Select(k => k.Xml)];
    }

    public void Add(string name, string xml)
    {
        using var db = room.Open();
        db.FormKeys.Add(new() { Name = name, Xml = xml });
        db.SaveChanges();
    }
}
