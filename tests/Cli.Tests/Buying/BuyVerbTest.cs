namespace Goodsheet.Cli.Tests.Buying;

/// <summary><c>buy</c> and <c>ways-out</c> as a script meets them.</summary>
public sealed class BuyVerbTest
{
    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Fact]
    public async Task What_to_order_prices_and_files_are_given_and_a_no_has_its_exit_code()
    {
        var folder = Directory.CreateTempSubdirectory("goodsheet-verb-").FullName;
        try
        {
            string In(string name) => Path.Combine(folder, name);
            await File.WriteAllTextAsync(In("papers.csv"), "name;class;grammage\nInvented Rag 300;smooth fine art;300\n", Cancel);
            await File.WriteAllTextAsync(In("suppliers.csv"), "name;cut_off;lead_days\nInvented Papers;14:30;1\n", Cancel);
            await File.WriteAllTextAsync(In("shelf.csv"), "paper;format;quantity;supplier\nInvented Rag 300;A2;10;Invented Papers\n", Cancel);
            Assert.Equal(0, (await OneVerb.RunAsync(["room", "import", In("papers.csv"), In("suppliers.csv"), In("shelf.csv"), "--decimals", "Comma", "--room", In("room")])).Exit);

            await File.WriteAllTextAsync(In("bad.csv"), "paper,format,from,from_packs,pack,price\ninvented-rag-300,A2,2020-01-01,1,25,50\nnobody,A2,2020-01-01,1,25,50\n", Cancel);
            var bad = await OneVerb.RunAsync(["buy", "prices", "invented-papers", In("bad.csv"), "--room", In("room")]);
            Assert.Equal(2, bad.Exit);
            Assert.Contains("line 3: the room has no paper “nobody”", bad.Output, StringComparison.Ordinal);
            Assert.Contains("Nothing was taken in.", bad.Output, StringComparison.Ordinal);
            await File.WriteAllTextAsync(In("good.csv"), "paper,format,from,from_packs,pack,price\ninvented-rag-300,A2,2020-01-01,1,25,50\n", Cancel);
            Assert.Contains("It is all in.", (await OneVerb.RunAsync(["buy", "prices", "invented-papers", In("good.csv"), "--room", In("room")])).Output, StringComparison.Ordinal);

            Assert.Contains("Nothing has to be ordered now.", (await OneVerb.RunAsync(["buy", "now", "--room", In("room")])).Output, StringComparison.Ordinal);
            Assert.Contains("0 entries in", (await OneVerb.RunAsync(["buy", "calendar", In("room.ics"), "--room", In("room")])).Output, StringComparison.Ordinal);
            Assert.StartsWith("BEGIN:VCALENDAR\r\n", await File.ReadAllTextAsync(In("room.ics"), Cancel), StringComparison.Ordinal);
            Assert.Equal(2, (await OneVerb.RunAsync(["buy", "order", "999", "--room", In("room")])).Exit);
            var out999 = await OneVerb.RunAsync(["ways-out", "999", "--room", In("room")]);
            Assert.Equal((2, true), (out999.Exit, out999.Error.Contains("There is no order 999.", StringComparison.Ordinal)));
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }
}
