using System.Diagnostics;
using System.Net;
using System.Net.Sockets;
using Goodsheet.Tests.Shared;

[assembly: AssemblyFixture(typeof(Goodsheet.App.Tests.Printing.EveryPrinter))]

namespace Goodsheet.App.Tests.Printing;

/// <summary>A real printer of the Internet Printing Protocol without ink: Debian's ippeveprinter, which keeps what it is sent.</summary>
/// <remarks>It makes itself known on the local network, so it needs the message bus and Avahi; both are started here on the loopback alone.</remarks>
public sealed class EveryPrinter : IAsyncDisposable
{
    private const string Program = "/usr/sbin/ippeveprinter";

    private readonly string folder = Directory.CreateTempSubdirectory("goodsheet-ipp-").FullName;
    private readonly SemaphoreSlim one = new(1);
    private readonly HttpClient http = new();
    private Process? printer;
    private int switchedOn;

    public EveryPrinter() => Port = FreePort();

    public int Port { get; }

    public string Address => $"ipp://localhost:{Port}/ipp/print";

    /// <summary>What it was sent, oldest first.</summary>
    public IReadOnlyList<string> Received =>
        [.. new DirectoryInfo(Spools).GetFiles("*", SearchOption.AllDirectories).Where(f => f.Length > 0).OrderBy(f => f.CreationTimeUtc).Select(f => f.FullName)];

    private string Spools => Path.Combine(folder, "spool");

    private string Jam => Path.Combine(folder, "jam");

    private string Fault => Path.Combine(folder, "fault");

    /// <summary>Switches it on, with paper in, unless it is.</summary>
    public async Task OnAsync()
    {
        await one.WaitAsync();
        try
        {
            if (printer is { HasExited: false })
            {
                return;
            }

            await InstallAsync();
            // It numbers its jobs from 1 each time it is switched on and names what it keeps by them: in one folder it would write over it.
            var spool = Directory.CreateDirectory(Path.Combine(Spools, $"{++switchedOn}")).FullName;
            var prints = Path.Combine(folder, "prints.sh");
            await File.WriteAllTextAsync(prints, $"""
                #!/bin/sh
                if [ -f {Jam} ]; then
                  echo "STATE: +media-jam-error" >&2
                  while [ -f {Jam} ]; do sleep 0.1; done
                  echo "STATE: -media-jam-error" >&2
                fi
                [ ! -f {Fault} ]
                """.ReplaceLineEndings("\n"));
            if (!OperatingSystem.IsWindows())
            {
                File.SetUnixFileMode(prints, UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
            }

            printer = Process.Start(new ProcessStartInfo(
                Program, ["-k", "-d", spool, "-n", "localhost", "-p", $"{Port}", "-c", prints, "-f", "image/tiff,application/pdf", $"Test {Port}"])
            {
                RedirectStandardError = true,
                RedirectStandardOutput = true,
            })!;
            var said = new System.Collections.Concurrent.ConcurrentQueue<string>();
            printer.OutputDataReceived += (_, _) => { };
            printer.ErrorDataReceived += (_, e) => said.Enqueue(e.Data ?? "");
            printer.BeginErrorReadLine();
            printer.BeginOutputReadLine();
            for (var i = 0; !await AnswersAsync(); i++)
            {
                Assert.False(printer.HasExited, $"ippeveprinter ended at once: {string.Join(' ', said)}");
                Assert.True(i < 600, $"ippeveprinter did not answer in a minute: {string.Join(' ', said)}");
                await Task.Delay(100);
            }
        }
        finally
        {
            one.Release();
        }
    }

    public async Task OffAsync()
    {
        if (printer is { HasExited: false })
        {
            printer.Kill();
            await printer.WaitForExitAsync();
        }
    }

    /// <summary>Takes the paper out of its trays, or puts it back.</summary>
    public async Task PaperAsync(bool isIn)
    {
        var sheets = isIn ? 250 : 0;
        await http.GetStringAsync(new Uri(
            $"http://localhost:{Port}/media?size1=iso_a4_210x297mm&type1=stationery&level1={sheets}&size3=iso_a4_210x297mm&type3=stationery&level3={sheets}"));
    }

    /// <summary>Jams the next sheet on its way, or clears the jam.</summary>
    public void Jammed(bool isJammed) => Put(Jam, isJammed);

    /// <summary>Makes it give up on jobs half way, or no more.</summary>
    public void Faulty(bool isFaulty) => Put(Fault, isFaulty);

    private static void Put(string flag, bool isThere)
    {
        if (isThere)
        {
            File.WriteAllBytes(flag, []);
        }
        else
        {
            File.Delete(flag);
        }
    }

    public async ValueTask DisposeAsync()
    {
        await OffAsync();
        http.Dispose();
        one.Dispose();
        Directory.Delete(folder, recursive: true);
    }

    private async Task<bool> AnswersAsync()
    {
        try
        {
            await http.GetStringAsync(new Uri($"http://localhost:{Port}/"));
            return true;
        }
        catch (HttpRequestException)
        {
            return false;
        }
    }

    private async Task InstallAsync()
    {
        if (!File.Exists(Program) && Debian.MayInstall)
        {
            Debian.Install(() => File.Exists(Program), "cups-ipp-utils", "avahi-daemon", "dbus");
        }

        Assert.SkipWhen(!File.Exists(Program), "No ippeveprinter here: install the package cups-ipp-utils, or run as root on Debian.");
        if (Process.GetProcessesByName("avahi-daemon").Length > 0 || Environment.UserName != "root")
        {
            return;
        }

        Directory.CreateDirectory("/run/dbus");
        if (Process.GetProcessesByName("dbus-daemon").Length == 0)
        {
            File.Delete("/run/dbus/pid");
            await RunAsync("/usr/bin/dbus-daemon", "--system", "--fork", "--nopidfile");
        }

        var settings = Path.Combine(folder, "avahi.conf");
        await File.WriteAllTextAsync(settings, "[server]\nallow-interfaces=lo\nuse-ipv6=no\n[publish]\npublish-workstation=no\n");
        await RunAsync("/usr/sbin/avahi-daemon", "-f", settings, "--no-drop-root", "--no-chroot", "-D");
    }

    private static async Task RunAsync(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        await process.WaitForExitAsync();
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
