using Goodsheet.Room;
using Goodsheet.Room.People;

namespace Goodsheet.App.Storage;

/// <summary>A wish that was granted, with what it asked for: asked again alike it is done, asked otherwise it is refused.</summary>
public sealed class CommandRecord
{
    public required CommandId Id { get; init; }

    public required string Content { get; init; }

    public required DateTimeOffset At { get; init; }

    public required PersonName By { get; init; }
}

public sealed record CommandUsedOtherwise(CommandId Command)
    : Refusal("This form was already sent, with other content. Nothing was changed. Open the page again and send it anew.");
