using Goodsheet.Room.Care;
using Goodsheet.Room.Shelf;

namespace Goodsheet.App.Demo;

/// <summary>The rounds of half a year, and the air in the room.</summary>
internal static class DemoCare
{
    private static readonly (string Name, string? Printer, int Every, int Hour, string Steps, string Caution, WasteCause? Against)[] Tasks =
    [
        ("Morning round", null, 1, 8, "Read the air in the room.\nLook at the papers' drawers: closed, flat, nothing on top.\nWipe the table where paper is laid.", "", WasteCause.Curl),
        ("Nozzle check", DemoCast.Heron, 1, 8, "Print the check.\nLook for gaps under good light.\nClean only the ink that has a gap.", "", WasteCause.Nozzle),
        ("Nozzle check", DemoCast.Wren, 1, 8, "Print the check.\nLook for gaps under good light.", "", WasteCause.Nozzle),
        ("End of day", null, 1, 17, "Paper back in its box, closed.\nRolls up and covered.\nPrinters off at their own button.", "", WasteCause.Curl),
        ("Brush the feed rollers", DemoCast.Heron, 7, 16, "Switch it off.\nBrush fibres off the rollers and out of the path.", "Keep fingers out of a printer that is on. A pressurised duster is flammable and never points at eyes.", WasteCause.Dust),
        ("Look at the waste ink", DemoCast.Heron, 30, 16, "Read the level.\nOrder a new tank when it is three quarters full.", "Wear gloves. Waste ink goes where local rules send it, never down a drain.", null),
    ];

    public static Task CareAsync(this DemoHand hand, DateOnly today, CancellationToken cancel) => hand.WriteAsync(
        db =>
        {
            for (var number = 1; number <= Tasks.Length; number++)
            {
                var (name, printer, every, hour, steps, caution, against) = Tasks[number - 1];
                var task = new CareTask
                {
                    Number = number,
                    Name = name,
                    Printer = printer is null ? null : DemoCast.PrinterOf(printer),
                    EveryDays = every,
                    At = new(hour, 40),
                    Steps = steps,
                    Caution = caution,
                    Against = against,
                };
                db.CareTasks.Add(task);
                for (var day = today.AddDays(-DemoHistory.Days); day < today; day = day.AddDays(every))
                {
                    if (day.DayOfWeek is not (DayOfWeek.Saturday or DayOfWeek.Sunday) && !hand.Chance(0.04))
                    {
                        task.LastAt = hand.Clock.At(day, hour + 0.7 + (0.2 * hand.Random.NextDouble()));
                        db.CareDone.Add(new() { Id = hand.Command().Value, Task = number, At = task.LastAt.Value, By = hand.Anybody(), Note = Note(name) });
                    }
                }
            }

            for (var day = today.AddDays(-DemoHistory.Days); day <= today; day = day.AddDays(1))
            {
                var season = Math.Cos(2 * Math.PI * (day.DayOfYear - 200) / 365.0);
                db.Climate.Add(new()
                {
                    At = hand.Clock.At(day, day == today ? 0.1 : 8.7),
                    Temperature = Math.Round(21 + (1.8 * season) + hand.Random.NextDouble(), 1),
                    Humidity = Math.Round(48 + (6 * season) + (5 * hand.Random.NextDouble()), 0),
                });
            }

            return Task.CompletedTask;
        },
        cancel);

    private static string Note(string task) => task == "Nozzle check" ? "complete" : "";
}
