using Goodsheet.Room.People;

namespace Goodsheet.Web.People;

/// <summary>Who is at this page. Every page that changes something takes its name from here.</summary>
public sealed class Visitor
{
    /// <summary>The cookie that remembers a name picked at the room's own machine.</summary>
    public const string PickedCookie = "goodsheet-who";

    /// <summary>The cookie of a device that was let in.</summary>
    public const string DeviceCookie = "goodsheet-device";

    public PersonName Name { get; private set; } = PersonName.Somebody;

    public Way At { get; private set; } = Way.Outside;

    /// <summary>The phone or screen, when the visitor is not at the room's own machine.</summary>
    public Guid? Device { get; private set; }

    /// <summary>Adds people, sets PINs, pairs and revokes phones: not from a phone that lies about.</summary>
    public bool LooksAfterPeople => At is Way.Desk or Way.SignedIn;

    public void IsAtTheDesk(PersonName? picked) => (At, Name) = (Way.Desk, picked ?? PersonName.Somebody);

    public void IsFromElsewhere(Device device) => (At, Name, Device) =
        (device.How is Admission.Paired ? Way.Phone : Way.SignedIn, device.Person, device.Id);

    public enum Way
    {
        /// <summary>Not let in.</summary>
        Outside,

        /// <summary>At the room's own machine.</summary>
        Desk,

        /// <summary>On a paired phone.</summary>
        Phone,

        /// <summary>On a screen where they gave their PIN or password.</summary>
        SignedIn,
    }
}
