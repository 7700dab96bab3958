using System.CommandLine;
using System.Text.Json;
using Goodsheet.Room;

namespace Goodsheet.Cli;

/// <summary>How every verb answers: what came of it to standard output, a refusal to standard error.</summary>
internal static class Answer
{
    public static readonly Option<bool> Json = new("--json") { Description = "Print the answer as JSON." };

    private static readonly JsonSerializerOptions Form = new(JsonSerializerDefaults.Web) { WriteIndented = true };

    public static async Task<int> GiveAsync<T>(this ParseResult line, Outcome<T> outcome, Func<T, object> json, Func<T, string> words)
        where T : notnull
    {
        if (!outcome.Granted)
        {
            await line.InvocationConfiguration.Error.WriteLineAsync(outcome.Refusal.Message);
            return Exit.Refused;
        }

        await line.InvocationConfiguration.Output.WriteLineAsync(
            line.GetValue(Json) ? JsonSerializer.Serialize(json(outcome.Value), Form) : words(outcome.Value));
        return Exit.Done;
    }

    /// <summary>Progress as whole per cents on standard error, each once.</summary>
    public static Progress<double> Progress(this ParseResult line)
    {
        var said = -1;
        return new(part =>
        {
            var now = (int)(100 * part);
            if (Interlocked.Exchange(ref said, now) != now)
            {
                line.InvocationConfiguration.Error.WriteLine($"{now} %");
            }
        });
    }
}
