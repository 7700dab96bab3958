using System.Net;
using System.Net.NetworkInformation;
using System.Net.Sockets;
using System.Text.RegularExpressions;

namespace Goodsheet.Cli.Tests.People;

/// <summary>The room beyond this machine: the real program, called by the machine's address in its network.</summary>
public sealed partial class ReachTest : IDisposable
{
    private const string Pin = "842196";

    private readonly DirectoryInfo folder = Directory.CreateTempSubdirectory("goodsheet-reach-");

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    public void Dispose()
    {
        if (folder.Exists)
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("--lan")]
    [InlineData("--urls http://0.0.0.0:0")]
    [InlineData("--urls http://127.0.0.1:0;http://*:0")]
    public async Task It_does_not_open_before_somebody_has_a_PIN(string words)
    {
        var (exit, _, error) = await OneVerb.RunAsync(["serve", "--room", folder.FullName, .. words.Split(' ')]);
        Assert.Equal(2, exit);
        Assert.Contains("Nobody has a PIN or password yet", error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Two_ways_to_say_where_to_listen_are_wrong_use() =>
        Assert.Equal(1, (await OneVerb.RunAsync(["serve", "--room", folder.FullName, "--lan", "--urls", "http://0.0.0.0:0"])).Exit);

    [Theory]
    [InlineData("84219", 2)]
    [InlineData("842196", 0)]
    public async Task A_person_gets_a_PIN_where_there_is_no_desk_screen(string secret, int exit)
    {
        var answer = await OneVerb.RunAsync(["person", "Mira", "--room", folder.FullName], secret);
        Assert.Equal(exit, answer.Exit);
        Assert.DoesNotContain(secret, answer.Output + answer.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task By_the_machines_own_address_it_asks_for_a_PIN_and_at_the_desk_it_does_not()
    {
        await OneVerb.RunAsync(["person", "Mira", "--room", folder.FullName], Pin);
        await using var room = await RunningRoom.OpenAsync(folder.FullName, urls: "http://0.0.0.0:0");
        using var handler = new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = new() };
        using var http = new HttpClient(handler);
        http.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        Assert.Equal(HttpStatusCode.OK, (await http.GetAsync(room.Address, Cancel)).StatusCode);

        var elsewhere = new UriBuilder(room.Address) { Host = OwnAddress().ToString() }.Uri;
        Assert.Equal("/people/sign-in?then=%2F", (await http.GetAsync(elsewhere, Cancel)).Headers.Location?.ToString());
        using var rebound = new HttpRequestMessage(HttpMethod.Get, elsewhere) { Headers = { Host = "elsewhere.example" } };
        Assert.Equal(HttpStatusCode.MisdirectedRequest, (await http.SendAsync(rebound, Cancel)).StatusCode);

        Assert.Equal(HttpStatusCode.OK, (await SignInAsync(http, elsewhere, "842197")).StatusCode); // asked again
        Assert.Equal(HttpStatusCode.Redirect, (await SignInAsync(http, elsewhere, Pin)).StatusCode);
        Assert.Contains("At this page: Mira", await http.GetStringAsync(new Uri(elsewhere, "/people"), Cancel), StringComparison.Ordinal);

        // The address that was found is said, kept, and on the page.
        Assert.Contains(elsewhere.ToString().TrimEnd('/'), await http.GetStringAsync(new Uri(room.Address, "/people/phones"), Cancel), StringComparison.Ordinal);
        lock (room.Said)
        {
            Assert.Contains($"Phones reach it at {elsewhere.ToString().TrimEnd('/')}", room.Said.ToString(), StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task No_secret_is_ever_logged_even_when_everything_else_is()
    {
        await OneVerb.RunAsync(["person", "Mira", "--room", folder.FullName], Pin);
        await using var room = await RunningRoom.OpenAsync(folder.FullName, environment: [("Logging__LogLevel__Default", "Trace")]);
        var cookies = new CookieContainer();
        using var handler = new HttpClientHandler { AllowAutoRedirect = false, CookieContainer = cookies };
        using var http = new HttpClient(handler);
        http.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        http.DefaultRequestHeaders.Add("X-Forwarded-For", "192.0.2.7");
        await SignInAsync(http, room.Address, "a wrong secret");
        await SignInAsync(http, room.Address, Pin);
        var token = cookies.GetAllCookies()["goodsheet-device"]!.Value;
        await http.GetAsync(new Uri(room.Address, "/people/pair?code=SECR-ETCD"), Cancel);
        await Task.Delay(500, Cancel); // the log is written behind
        lock (room.Said)
        {
            var log = room.Said.ToString();
            Assert.Contains("dbug:", log, StringComparison.Ordinal); // it does log
            Assert.All((string[])[Pin, "a wrong secret", "a+wrong+secret", token, "SECR-ETCD", "pbkdf2"], secret => Assert.DoesNotContain(secret, log, StringComparison.Ordinal));
        }
    }

    private static async Task<HttpResponseMessage> SignInAsync(HttpClient http, Uri room, string secret)
    {
        var page = new Uri(room, "/people/sign-in");
        var token = Token().Match(await http.GetStringAsync(page, Cancel)).Groups[1].Value;
        using var form = new FormUrlEncodedContent(
        [
            new("_handler", "sign-in"), new("__RequestVerificationToken", WebUtility.HtmlDecode(token)), new("Who.Name", "Mira"), new("Who.Secret", secret),
        ]);
        return await http.PostAsync(page, form, Cancel);
    }

    private static IPAddress OwnAddress() => NetworkInterface.GetAllNetworkInterfaces()
        .Where(i => i.OperationalStatus is OperationalStatus.Up && i.NetworkInterfaceType is not NetworkInterfaceType.Loopback)
        .OrderByDescending(i => i.GetIPProperties().GatewayAddresses.Count)
        .SelectMany(i => i.GetIPProperties().UnicastAddresses)
        .First(a => a.Address.AddressFamily is AddressFamily.InterNetwork).Address;

    [GeneratedRegex("""name="__RequestVerificationToken" value="([^"]+)""")]
    private static partial Regex Token();
}
