using Goodsheet.Room.People;

namespace Goodsheet.Web.People;

/// <summary>Who is at this page. Every page that changes something takes its name from here.</summary>
public sealed class Visitor
{
    /// <summary>The cookie that remembers a name picked at the room's own machine.</summary>
    public const string Cookie = "goodsheet-who";

    /// <summary>Nobody picked a name yet.</summary>
    public static PersonName Somebody { get; } = new("somebody at the desk");

    public PersonName Name { get; set; } = Somebody;
}
