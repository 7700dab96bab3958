using System.Diagnostics;

namespace Goodsheet.Tests.Shared;

/// <summary>What a bare machine lacks for a test, by Debian's own packages.</summary>
/// <remarks>The test programs run side by side and only one at a time may install, so each waits for its turn.</remarks>
internal static class Debian
{
    private const string Apt = "/usr/bin/apt-get";

    private static readonly TimeSpan Patience = TimeSpan.FromMinutes(15);

    /// <summary>Whether this is Debian, or one of its kin, and we may install.</summary>
    public static bool MayInstall => Environment.UserName == "root" && File.Exists(Apt);

    /// <summary>Installs them, unless another test program did while this one waited.</summary>
    /// <exception cref="InvalidOperationException">The installing failed; what was said is in the message.</exception>
    public static void Install(Func<bool> isThere, params string[] packages)
    {
        using var turn = Turn();
        if (!isThere())
        {
            Run(["update", "-qq"]);
            Run(["install", "-y", "-qq", "--no-install-recommends", "-o", $"DPkg::Lock::Timeout={Patience.TotalSeconds:0}", .. packages]);
        }
    }

    private static FileStream Turn()
    {
        var waiting = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                return new(Path.Combine(Path.GetTempPath(), "goodsheet-tests-install"), FileMode.OpenOrCreate, FileAccess.ReadWrite, FileShare.None);
            }
            catch (IOException) when (waiting.Elapsed < Patience)
            {
                Thread.Sleep(200);
            }
        }
    }

    private static void Run(string[] arguments)
    {
        var start = new ProcessStartInfo(Apt, arguments) { RedirectStandardError = true, RedirectStandardOutput = true };
        start.Environment["DEBIAN_FRONTEND"] = "noninteractive";
        using var apt = Process.Start(start)!;
        var said = Task.WhenAll(apt.StandardOutput.ReadToEndAsync(), apt.StandardError.ReadToEndAsync());
        apt.WaitForExit();
        if (apt.ExitCode != 0)
        {
            throw new InvalidOperationException($"apt-get {string.Join(' ', arguments)} ended with {apt.ExitCode}: {string.Join('\n', said.Result)}");
        }
    }
}
