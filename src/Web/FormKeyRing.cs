using System.Xml.Linq;
using Microsoft.AspNetCore.DataProtection.Repositories;
using Goodsheet.App.Storage;

namespace Goodsheet.Web;

/// <summary>Lets the web framework keep the keys of its forms with the room's records.</summary>
internal sealed class FormKeyRing(FormKeys keys) : IXmlRepository
{
    public IReadOnlyCollection<XElement> GetAllElements() => [.. keys.All().Select(xml => XElement.Parse(xml))];

    public void StoreElement(XElement element, string friendlyName) =>
        keys.Add($"{friendlyName} {Guid.CreateVersion7()}", element.ToString(SaveOptions.DisableFormatting));
}
