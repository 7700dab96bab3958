using System.Net;
using System.Text.RegularExpressions;
using Microsoft.AspNetCore.Builder;
using Microsoft.Extensions.DependencyInjection;
using Goodsheet.App.Files;
using Goodsheet.App.Storage;
using Goodsheet.App.Tests;

namespace Goodsheet.Web.Tests;

/// <summary>The room as a web app in this process, on a free port and a real store, asked over real HTTP.</summary>
internal sealed partial class ServedRoom : IAsyncDisposable
{
    private readonly FreshRoom room;
    private readonly WebApplication app;

    // Faults are asked for here, and what the room writes of them would hide one that was not.
    static ServedRoom() => Environment.SetEnvironmentVariable("Logging__Console__LogLevel__Default", "None");

    private ServedRoom(FreshRoom room, WebApplication app) => (this.room, this.app) = (room, app);

    public Uri Address => new(app.Urls.Single());

    public RoomStore Store => room.Store;

    public FreshRoom Room => room;

    /// <param name="through">How the web app reaches the records, when not as everybody does.</param>
    public static async Task<ServedRoom> OpenAsync(Func<FreshRoom, RoomStore>? through = null)
    {
        var room = await FreshRoom.InFileAsync();
        var app = GoodsheetWeb.Build(through?.Invoke(room) ?? room.Store, new FileShelf(Path.Combine(room.Folder, "files")), "http://127.0.0.1:0");
        await app.StartAsync();
        return new(room, app);
    }

    public T Use<T>()
        where T : notnull => app.Services.GetRequiredService<T>();

    /// <summary>How long a large body is held back for the room's word whether it may come: a busy machine says no late, not never.</summary>
    public static TimeSpan Patience { get; } = TimeSpan.FromMinutes(2);

    /// <summary>A browser with cookies of its own that follows no redirect.</summary>
    /// <param name="fromElsewhere">As something between says that it is not at the room's own machine.</param>
    public HttpClient Browser(bool fromElsewhere = false)
    {
        var http = new HttpClient(new SocketsHttpHandler { AllowAutoRedirect = false, CookieContainer = new(), Expect100ContinueTimeout = Patience }) { BaseAddress = Address };
        http.DefaultRequestHeaders.Accept.ParseAdd("text/html");
        if (fromElsewhere)
        {
            http.DefaultRequestHeaders.Add("X-Forwarded-For", "192.0.2.7");
        }

        return http;
    }

    public async ValueTask DisposeAsync()
    {
        await app.StopAsync();
        await app.DisposeAsync();
        await room.DisposeAsync();
    }

    [GeneratedRegex("""name="__RequestVerificationToken" value="([^"]+)""")]
    internal static partial Regex Token();
}

internal static class Forms
{
    /// <summary>Opens a page and sends its form of that name, as a browser does.</summary>
    public static async Task<HttpResponseMessage> SendFormAsync(this HttpClient http, string page, string form, params (string Name, string Value)[] fields)
    {
        var token = ServedRoom.Token().Match(await http.GetStringAsync(page));
        Assert.True(token.Success, $"{page} has no form");
        using var content = new FormUrlEncodedContent(
        [
            new("_handler", form), new("__RequestVerificationToken", WebUtility.HtmlDecode(token.Groups[1].Value)),
            .. fields.Select(f => new KeyValuePair<string, string>(f.Name, f.Value)),
        ]);
        return await http.PostAsync(page, content);
    }

    public static async Task<string> TextAsync(this HttpResponseMessage answer) =>
        WebUtility.HtmlDecode(await answer.Content.ReadAsStringAsync());
}
