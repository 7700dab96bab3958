using Goodsheet.App.Buying;
using Goodsheet.App.Papers;
using Goodsheet.Room.Buying;
using Goodsheet.Room.Papers;

namespace Goodsheet.App.Opening;

/// <summary>Papers, suppliers and clients: a line that the room knows already is left as it is.</summary>
internal static class OpeningNames
{
    private const int LongestName = 60;
    private const int LongestText = 500;

    public static (LineState, string) Paper(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var name = fields.Text("name", AddPaper.Request.LongestName);
        var code = new PaperCode(Slug.Of(name));
        pass.Once(code.Value, row.Line);
        if (code.Value.Length == 0)
        {
            throw new LineIsWrongException("a paper needs a name with letters or figures");
        }

        var kind = fields.Word<PaperClass>("class");
        var rule = TradeRules.New().Single(r => r.Class == kind);
        var paper = new Paper
        {
            Code = code,
            Name = name,
            Class = kind,
            Base = fields.Word<PaperBase>("base", Base(kind)),
            Coat = fields.Word<Coat>("coat", rule.Coat ?? Room.Papers.Coat.Dull),
            CoatedSides = (int)fields.Whole("sides", 1, 2, 1),
            Grammage = (int)fields.Whole("grammage", 20, 2_000),
            Feed = fields.Word<Feed>("feed", rule.UsualFeed),
            DryingHours = row["drying_hours"].Trim().Length == 0 ? 1 : (double)fields.Number("drying_hours"),
            LineUp = LineUp.In,
        };
        if (paper.DryingHours is < 0 or > 1_000)
        {
            throw new LineIsWrongException("drying takes from 0 to 1000 hours");
        }

        if (pass.Papers.Values.Any(p => p.Name.Equals(name, StringComparison.OrdinalIgnoreCase)) || !pass.Papers.TryAdd(code, paper))
        {
            return (LineState.Known, $"{name} is in the room already");
        }

        pass.Db.Papers.Add(paper);
        return (LineState.Fine, $"{name}, {HandlingAdvice.ClassWords(kind)}, {paper.Grammage} g/m2");
    }

    public static (LineState, string) Supplier(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var name = fields.Text("name", SupplierTerms.LongestName);
        var code = new SupplierCode(Slug.Of(name));
        pass.Once(code.Value, row.Line);
        var cutOff = TimeOnly.TryParseExact(row["cut_off"].Trim(), ["HH:mm", "H:mm"], System.Globalization.CultureInfo.InvariantCulture, System.Globalization.DateTimeStyles.None, out var time)
            ? time : throw new LineIsWrongException($"“{row["cut_off"]}” is no time of day; write it as 14:30");
        var terms = new SupplierTerms(
            name, row["time_zone"].Trim() is { Length: > 0 } zone ? zone : "Europe/London", WorkingWeek.MondayToFriday, WorkingWeek.MondayToFriday,
            row["holidays"].Trim() is { Length: > 0 } country ? country : null, fields.Money("minimum_order", 0),
            row["carriage_free_from"].Trim().Length == 0 ? null : fields.Money("carriage_free_from"), fields.Money("carriage", 0),
            fields.Text("email", LongestText, needed: false), "", [new("usual", cutOff, (int)fields.Whole("lead_days", 0, 60))]);
        if (code.Value.Length == 0 || terms.Wrong() is not null)
        {
            throw new LineIsWrongException(terms.Wrong()?.Message.TrimEnd('.') ?? "a supplier needs a name with letters or figures");
        }

        if (pass.Suppliers.ContainsValue(name) || !pass.Suppliers.TryAdd(code, name))
        {
            return (LineState.Known, $"{name} is in the room already");
        }

        var supplier = new Supplier { Code = code, Name = name, TimeZone = terms.TimeZone };
        terms.WriteTo(supplier);
        pass.Db.Suppliers.Add(supplier);
        pass.Db.Dispatches.AddRange(terms.Dispatches(code));
        return (LineState.Fine, $"{name}, order by {cutOff:HH\\:mm}");
    }

    public static (LineState, string) Client(OpeningPass pass, OpeningFile.Row row)
    {
        var fields = new OpeningFields(row, pass.Mark);
        var name = fields.Text("name", LongestName);
        pass.Once(name.ToLowerInvariant(), row.Line);
        var contact = fields.Text("contact", LongestText, needed: false);
        if (!pass.Clients.Add(name))
        {
            return (LineState.Known, $"{name} is in the room already");
        }

        pass.Db.Clients.Add(new() { Number = pass.NextClient++, Name = name, Contact = contact });
        return (LineState.Fine, name);
    }

    private static PaperBase Base(PaperClass kind) => kind switch
    {
        PaperClass.Gloss or PaperClass.Satin or PaperClass.Pearl => PaperBase.ResinCoated,
        PaperClass.Matte => PaperBase.Cellulose,
        PaperClass.Baryta => PaperBase.BarytaFibre,
        PaperClass.Canvas => PaperBase.CottonCanvas,
        _ => PaperBase.Cotton,
    };
}
