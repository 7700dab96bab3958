using System.Globalization;
using PdfSharp.Pdf;
using Goodsheet.App.Runs;
using Goodsheet.Room.Orders;
using Goodsheet.Room.Papers;
using Goodsheet.Room.Runs;

namespace Goodsheet.App.Documents;

/// <summary>The run card on A4: what, how, in what order, what to look out for; one page where it fits.</summary>
internal sealed class RunCardPages
{
    private const double QrSide = 30;
    private const int MostBoxes = 60; // more prints than this are counted in writing

    private readonly Flow flow;
    private readonly RunCard card;

    private RunCardPages(Flow flow, RunCard card) => (this.flow, this.card) = (flow, card);

    /// <param name="card">The run.</param>
    /// <param name="decision">The decision to go on against a rule, in words; none if none was needed.</param>
    /// <param name="address">The room's stated address; none if there is none.</param>
    /// <param name="made">When, in the room's own time.</param>
    public static Document Draw(RunCard card, string? decision, string? address, DateTimeOffset made)
    {
        using var document = new PdfDocument();
        document.Info.Title = $"Run card {card.Run.Number}";
        using (var flow = new Flow(document, Over(card, made), $"Run {card.Run.Number}, continued"))
        {
            var pages = new RunCardPages(flow, card);
            pages.Head(address);
            pages.First();
            pages.Steps();
            pages.Cautions(decision);
            pages.Prints();
            new CutListPages(flow, card.Layout).Draw();
        }

        return Document.Of(document, $"run-{card.Run.Number}.pdf");
    }

    private static string Over(RunCard card, DateTimeOffset made)
    {
        var orders = card.Prints.Select(p => p.Run.Order).Distinct().ToArray();
        var named = orders.Length <= 6 ? string.Join(", ", orders) : $"{orders[0]} and {orders.Length - 1} more";
        return $"Run {card.Run.Number}, {(orders.Length == 1 ? "order" : "orders")} {named}. Card made {made.ToString("d MMM yyyy HH:mm", CultureInfo.CurrentCulture)}";
    }

    private void Head(string? address)
    {
        flow.Leaf.Type("Run", Flow.Left, flow.Y, Face.Text, 3.7);
        flow.Leaf.Type(card.Run.Number.ToString(CultureInfo.CurrentCulture), Flow.Left, flow.Y + 6, Face.Strong, 17);
        var quiet = QrSide * 0.1; // the quiet zone hangs into the margin
        if (address is not null)
        {
            flow.Leaf.Qr(QrCode.Of($"{address}/runs/{card.Run.Number}"), Flow.Right - QrSide + quiet, flow.Y - quiet, QrSide);
        }
        else
        {
            var y = flow.Y;
            foreach (var line in flow.Leaf.Lines("No QR code: the room has not stated its address. See People, Phones.", 45, Face.Text, 3.2))
            {
                flow.Leaf.TypeRight(line, Flow.Right, y, Face.Text, 3.2);
                y += 4.2;
            }
        }

        flow.Y += QrSide - quiet + 0.6;
        flow.Rule(0.9);
    }

    private void First()
    {
        (string Word, string First, string Second)[] facts =
        [
            ("Paper", card.Paper.Name, $"{card.Format.Code}, lot {card.Lot.Code}"),
            ("Printer", card.Printer.Name, card.Condition.MediaSetting),
            ("Black", HandlingAdvice.BlackWords(card.Run.Black), card.ChangeBlack ? "change needed" : "is in"),
            ("Takes", Takes(), $"{card.AllPrints} {(card.AllPrints == 1 ? "print" : "prints")}"),
        ];
        double[] widths = [64, 44, 38, 30];
        var (x, top, lowest) = (Flow.Left, flow.Y, flow.Y);
        for (var i = 0; i < facts.Length; i++)
        {
            flow.Leaf.Type(facts[i].Word, x, top, Face.Text, 3.2);
            var y = top + 5;
            foreach (var line in flow.Leaf.Lines(facts[i].First, widths[i] - 4, Face.Strong, 4.2, most: 3)
                .Concat(flow.Leaf.Lines(facts[i].Second, widths[i] - 4, Face.Strong, 4.2, most: 2)))
            {
                flow.Leaf.Type(line, x, y, Face.Strong, 4.2);
                y += 5.3;
            }

            (x, lowest) = (x + widths[i], Math.Max(lowest, y));
        }

        flow.Y = lowest + 2;
    }

    private string Takes() => card.Format.IsRoll
        ? string.Create(CultureInfo.CurrentCulture, $"{card.Run.Needs / 1000.0:0.##} m")
        : $"{card.Run.Needs} {(card.Run.Needs == 1 ? "sheet" : "sheets")}";

    private void Steps()
    {
        flow.Heading("In this order");
        flow.Rule(0.2, 1.5);
        foreach (var (step, i) in card.Steps.Select((s, i) => (s, i)))
        {
            Step(step, i + 1);
        }

        flow.Y += 2;
    }

    private void Step(CardStep step, int number)
    {
        const double indent = 11;
        var width = Flow.Width - indent - 10;
        var how = flow.Leaf.Lines(step.How, width, Face.Text, 3.4);
        var done = flow.Leaf.Lines(step.Do, width, Face.Strong, 3.9);
        flow.Room((done.Count * 4.8) + (how.Count * 4.4) + 3);
        flow.Leaf.Type(number.ToString(CultureInfo.CurrentCulture), Flow.Left, flow.Y + 0.3, Face.Strong, 5.2);
        flow.Leaf.Box(Flow.Right - 5, flow.Y, 5, 5);
        foreach (var line in done)
        {
            flow.Leaf.Type(line, Flow.Left + indent, flow.Y + 0.4, Face.Strong, 3.9);
            flow.Y += 4.8;
        }

        foreach (var line in how)
        {
            flow.Leaf.Type(line, Flow.Left + indent, flow.Y + 0.3, Face.Text, 3.4);
            flow.Y += 4.4;
        }

        flow.Y = Math.Max(flow.Y, flow.Y + (how.Count == 0 ? 1 : 0)) + 0.8;
        flow.Rule(0.15, 1.6);
    }

    private void Cautions(string? decision)
    {
        if (card.WaitsForADecision)
        {
            flow.Note("Stopped here.", $"{string.Join(" ", card.Halts.Select(h => h.Why.Message))} Do not draw paper before somebody has decided, on the run’s page.", hatched: true);
        }

        foreach (var strip in card.Strips)
        {
            flow.Note("Test strip first.", $"{strip.Of.Title}, order {strip.Of.Order}: {strip.Says}.", hatched: strip.Of.Wait is not StripWait.Nothing);
        }

        foreach (var caution in card.Cautions)
        {
            flow.Note(caution.What, caution.How, hatched: true);
        }

        if (HandlingAdvice.InkRemark(card.Rule, card.Printer.Inks) is { } remark)
        {
            flow.Note("To know.", remark, hatched: false);
        }

        if (decision is not null)
        {
            flow.Note("Decided.", decision, hatched: false);
        }
    }

    // One box a print, to be struck for good and crossed for waste.
    private void Prints()
    {
        const double box = 4.2, gap = 1.6, boxes = Flow.Left + 106;
        const int perRow = 12;
        flow.Heading("Prints");
        foreach (var print in card.Prints)
        {
            var copies = print.Run.Copies;
            flow.Room(7);
            flow.Leaf.TypeFitted(print.Line.Title, Flow.Left, flow.Y + 1.4, 54, Face.Title, 3.7, 3);
            flow.Leaf.TypeFitted(
                string.Create(CultureInfo.CurrentCulture, $"{print.Line.FullWidth.Millimetres:0.#} × {print.Line.FullHeight.Millimetres:0.#} mm, {copies} times"),
                Flow.Left + 56, flow.Y + 1.4, 48, Face.Text, 3.4, 2.6);
            if (copies > MostBoxes)
            {
                flow.Leaf.Type("good ________   waste ________", boxes, flow.Y + 1.4, Face.Text, 3.4);
                flow.Y += 6.6;
                continue;
            }

            for (var i = 0; i < copies; i += perRow)
            {
                flow.Room(7);
                for (var k = 0; k < Math.Min(perRow, copies - i); k++)
                {
                    flow.Leaf.Box(boxes + (k * (box + gap)), flow.Y, box, 5.6);
                }

                flow.Y += 6.6;
            }
        }

        flow.Words($"A stroke for good, a cross for waste. Profile: {card.Profile.Name}, version {card.Profile.Version}, {card.Profile.Standing.ToString().ToLowerInvariant()}. {card.Layout.UsedPercent:0.#} % of the paper is used.");
    }
}
