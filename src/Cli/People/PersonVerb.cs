using System.CommandLine;
using Goodsheet.App;
using Goodsheet.App.People;
using Goodsheet.Room.People;

namespace Goodsheet.Cli.People;

/// <summary><c>person</c>: writes somebody down and gives them a PIN or password, where the room has no desk screen.</summary>
public static class PersonVerb
{
    private static readonly Argument<string> Name = new("name") { Description = "Who." };

    public static Command Create()
    {
        var command = new Command("person", "Writes a person down with the PIN or password that comes in on standard input, one line.")
        {
            Name, RoomOption.Room, RoomOption.Postgres, Answer.Json,
        };
        command.SetAction(RunAsync);
        return command;
    }

    private static async Task<int> RunAsync(ParseResult line, CancellationToken cancel)
    {
        var (store, files) = line.OpenRoom();
        await store.MigrateAsync(cancel);
        await using var services = new ServiceCollection().AddGoodsheet(store, files).BuildServiceProvider();
        var secret = await Console.In.ReadLineAsync(cancel) ?? ""; // not on the command line, where others on the machine can read it
        if (SecretRule.Check(secret) is { } weak)
        {
            await line.InvocationConfiguration.Error.WriteLineAsync(weak.Message);
            return Exit.Refused;
        }

        var added = await services.GetRequiredService<AddPerson>().RunAsync(new(line.GetRequiredValue(Name)), cancel);
        if (!added.Granted)
        {
            await line.InvocationConfiguration.Error.WriteLineAsync(added.Refusal.Message);
            return Exit.Refused;
        }

        return await line.GiveAsync(
            await services.GetRequiredService<SetSecret>().RunAsync(new(added.Value.Name, secret), cancel),
            done => new { person = done.Person.Value },
            done => $"{done.Person} can sign in from elsewhere.");
    }
}
