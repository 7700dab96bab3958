using System.ComponentModel;
using System.ComponentModel.DataAnnotations;

namespace Goodsheet.Web.Api;

// What goes over the wire has types of its own: the trade's nouns may change, these only grow.

/// <summary>A picture that was kept.</summary>
/// <param name="Picture">What a print names it by.</param>
public sealed record KeptPicture(string Picture, int PixelsWide, int PixelsHigh);

/// <summary>An order to be printed.</summary>
/// <param name="Client">Whose order it is.</param>
/// <param name="Reference">The client's own number for it.</param>
/// <param name="Promised">When it is to be ready.</param>
/// <param name="Approval">What the client approves before it is printed: "nothing", "proof" or "quotation".</param>
public sealed record NewOrder(
    [property: Required, MaxLength(120)] string Client,
    [property: MaxLength(60)] string? Reference,
    DateTimeOffset Promised,
    [property: Description("nothing, proof or quotation")] string? Approval,
    [property: Required] IReadOnlyList<NewPrint> Prints);

/// <summary>One picture at one size on one paper.</summary>
/// <param name="Picture">As it was answered when the picture was sent.</param>
/// <param name="WidthMm">Of the picture on paper.</param>
/// <param name="Edge">"white", "bleed", "wrap", "stretched wrap" or "plain wrap".</param>
/// <param name="AroundMm">How wide the bleed or wrap is.</param>
public sealed record NewPrint(
    [property: Required] string Picture, [property: Required, MaxLength(200)] string FileName, [property: MaxLength(200)] string? Title,
    double WidthMm, double HeightMm, double? BorderMm, [property: Description(Goodsheet.Room.Orders.Edges.Words)] string? Edge, double? AroundMm,
    [property: Required] string Paper, int Copies);

/// <summary>How an order is.</summary>
/// <param name="State">In plain words: "to print", "on hold: the larger file is awaited".</param>
public sealed record OrderSays(
    int Order, string Client, string Reference, DateTimeOffset Promised, string State, bool IsDone, IReadOnlyList<PrintSays> Prints);

/// <summary>How a print of it is.</summary>
/// <param name="Findings">What will go wrong unless somebody acts.</param>
public sealed record PrintSays(int Print, string Title, int Copies, int Good, IReadOnlyList<string> Findings);

/// <summary>A paper that may be asked for.</summary>
public sealed record PaperSays(string Paper, string Name, string Kind, int GrammagePerSquareMetre);

/// <summary>A size of sheet or roll the room knows.</summary>
/// <param name="LengthMm">None for a roll.</param>
public sealed record FormatSays(string Format, bool IsRoll, double WidthMm, double? LengthMm);

/// <summary>Why something was refused, in words for a person.</summary>
public sealed record Problem(string Why);
