namespace Goodsheet.Cli.Tests.Opening;

/// <summary><c>room import</c> and <c>stock</c> as a script meets them.</summary>
public sealed class RoomVerbTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task Lists_come_in_whole_or_not_at_all_and_the_exit_code_says_which()
    {
        var folder = Directory.CreateTempSubdirectory("goodsheet-verb-").FullName;
        try
        {
            var (room, papers, shelf, prices) = (Path.Combine(folder, "room"), Path.Combine(folder, "papers.csv"), Path.Combine(folder, "shelf.csv"), Path.Combine(folder, "prices.csv"));
            await File.WriteAllTextAsync(papers, "name;class;grammage\nInvented Rag 300;smooth fine art;300\n", Cancel);
            await File.WriteAllTextAsync(prices, "supplier;paper;format;pack;price;from\nInvented Papers;Invented Rag 300;A2;25;100,50;2020-01-01\n", Cancel);
            await File.WriteAllTextAsync(Path.Combine(folder, "suppliers.csv"), "name;cut_off;lead_days\nInvented Papers;14:30;1\n", Cancel);
            await File.WriteAllTextAsync(shelf, "paper;format;quantity\nInvented Rag 300;A2;0\n", Cancel);
            string[] all = [papers, prices, Path.Combine(folder, "suppliers.csv"), shelf, "--decimals", "Comma", "--room", room];

            var wrong = await OneVerb.RunAsync(["room", "import", .. all]);
            Assert.Equal(2, wrong.Exit);
            Assert.Contains("line 2: quantity 0 cannot be: from 1 to 1000000", wrong.Error, StringComparison.Ordinal);
            await File.WriteAllTextAsync(shelf, "paper;format;quantity;supplier\nInvented Rag 300;A2;10;Invented Papers\n", Cancel);
            var look = await OneVerb.RunAsync(["room", "import", "--look", .. all]);
            Assert.Equal((0, true), (look.Exit, look.Output.Contains("Nothing was taken in.", StringComparison.Ordinal)));
            var done = await OneVerb.RunAsync(["room", "import", .. all]);
            Assert.Equal((0, true), (done.Exit, done.Output.Contains("It is all in.", StringComparison.Ordinal)));

            var value = await OneVerb.RunAsync(["stock", "value", "--room", room]);
            Assert.Contains("10 sheets, 40.20", value.Output, StringComparison.Ordinal); // 10 at 100.50 / 25
            var usage = await OneVerb.RunAsync(["stock", "usage", "--room", room]);
            Assert.StartsWith("month,paper,format,unit,", usage.Output, StringComparison.Ordinal);
            Assert.Equal(2, (await OneVerb.RunAsync(["stock", "usage", "--month", "March", "--room", room])).Exit);
            Assert.Equal(1, (await OneVerb.RunAsync(["room", "import", shelf, "--room", room])).Exit); // the decimal mark is asked, not guessed
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
