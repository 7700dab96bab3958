namespace Goodsheet.Cli.Tests.Care;

public sealed class CareVerbTest : IDisposable
{
    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-care-");

    public void Dispose() => folder.Delete(recursive: true);

    [Fact]
    public async Task A_loggers_file_is_taken_in_and_one_that_leaves_a_question_open_is_refused()
    {
        var file = Path.Combine(folder.FullName, "logger.csv");
        await File.WriteAllTextAsync(file, "time,temp,rh\n2026-03-02 08:00,68,48\n2026-03-02 09:00,70,48\n", TestContext.Current.CancellationToken);
        string[] words = ["care", "import", file, "--room", Path.Combine(folder.FullName, "room")];
        var open = await OneVerb.RunAsync(words);
        Assert.Equal((2, ""), (open.Exit, open.Output));
        Assert.Contains("Say whether it is Fahrenheit", open.Error);
        var done = await OneVerb.RunAsync([.. words, "--unit", "Fahrenheit"]);
        Assert.Equal(0, done.Exit);
        Assert.Contains("2 new, taken in.", done.Output);
        Assert.Equal(2, (await OneVerb.RunAsync(["care", "import", file + "x", "--room", folder.FullName])).Exit);
    }
}
