using System.Net.Http.Headers;
using Goodsheet.Room;

namespace Goodsheet.App.Printing;

/// <summary>Talks to one printer on the network by the Internet Printing Protocol.</summary>
/// <remarks>RFC 8011 for the operations, RFC 8010 for their encoding. Why our own: docs/decisions/0220.</remarks>
internal sealed class IppClient(HttpClient http, Uri printer)
{
    private const int LongestAnswer = 4 << 20;
    private const int IppPort = 631;
    private const ushort Busy = 0x0507;

    private static readonly MediaTypeHeaderValue Ipp = new("application/ipp");

    private int requests;

    /// <summary>An address the room can use: ipp or ipps, with a host. None when it is not one.</summary>
    public static Uri? Address(string typed) =>
        typed.Length <= 500 && Uri.TryCreate(typed.Trim(), UriKind.Absolute, out var uri) && uri.Scheme is "ipp" or "ipps"
        && uri.Host.Length > 0 && uri.UserInfo.Length == 0 ? uri : null;

    /// <summary>How the printer is.</summary>
    public async Task<Outcome<IppMessage.Group>> StateAsync(CancellationToken cancel)
    {
        var request = Begin(IppOperation.GetPrinterAttributes);
        request.FirstOf(IppMessage.OperationGroup).Keyword("requested-attributes", [.. PrinterSays.Asked]);
        var answer = await AskAsync(request, null, cancel);
        return answer.Granted ? answer.Value.FirstOf(IppMessage.PrinterGroup) : answer.Refusal;
    }

    /// <summary>Hands over a file and says which number the printer gave the job.</summary>
    public async Task<Outcome<int>> PrintAsync(Stream file, string format, string name, string by, int copies, CancellationToken cancel)
    {
        var request = Begin(IppOperation.PrintJob);
        request.FirstOf(IppMessage.OperationGroup).Name("requesting-user-name", by).Name("job-name", name).Format("document-format", format);
        var job = request.Begin(IppMessage.JobGroup).Number("copies", copies);
        job.Keyword("print-scaling", "none").Choice("print-quality", 5);
        var answer = await AskAsync(request, file, cancel);
        if (!answer.Granted)
        {
            return answer.Refusal;
        }

        return answer.Value.FirstOf(IppMessage.JobGroup).Numbers("job-id") is [var id, ..] ? id : new PrinterAnswersOddly(printer.Host, "it took the job and gave it no number");
    }

    /// <summary>How a job is.</summary>
    public async Task<Outcome<IppMessage.Group>> JobAsync(int job, CancellationToken cancel)
    {
        var request = Begin(IppOperation.GetJobAttributes);
        request.FirstOf(IppMessage.OperationGroup).Number("job-id", job);
        var answer = await AskAsync(request, null, cancel);
        return answer.Granted ? answer.Value.FirstOf(IppMessage.JobGroup) : answer.Refusal;
    }

    /// <summary>The number of a job by its name, done or not; 0 when the printer knows no such job.</summary>
    public async Task<Outcome<int>> FindAsync(string name, CancellationToken cancel)
    {
        foreach (var which in (string[])["not-completed", "completed"])
        {
            var request = Begin(IppOperation.GetJobs);
            request.FirstOf(IppMessage.OperationGroup).Keyword("which-jobs", which).Keyword("requested-attributes", "job-id", "job-name");
            var answer = await AskAsync(request, null, cancel);
            if (!answer.Granted)
            {
                return answer.Refusal;
            }

            var found = answer.Value.Groups.FirstOrDefault(g => g.Tag == IppMessage.JobGroup && g.Texts("job-name").Contains(name));
            if (found?.Numbers("job-id") is [var id, ..])
            {
                return id;
            }
        }

        return 0;
    }

    public async Task<Outcome<bool>> CancelAsync(int job, CancellationToken cancel)
    {
        var request = Begin(IppOperation.CancelJob);
        request.FirstOf(IppMessage.OperationGroup).Number("job-id", job);
        var answer = await AskAsync(request, null, cancel);
        return answer.Granted ? true : answer.Refusal;
    }

    private IppMessage Begin(IppOperation operation)
    {
        var message = new IppMessage((ushort)operation, ++requests);
        message.Begin(IppMessage.OperationGroup).Charset("utf-8").Language("en").Uri("printer-uri", printer.ToString());
        return message;
    }

    private async Task<Outcome<IppMessage>> AskAsync(IppMessage request, Stream? file, CancellationToken cancel)
    {
        using var content = new IppContent(request.ToBytes(), file);
        content.Headers.ContentType = Ipp;
        var at = new UriBuilder(printer) { Scheme = printer.Scheme == "ipps" ? "https" : "http", Port = printer.Port > 0 ? printer.Port : IppPort }.Uri;
        try
        {
            using var post = new HttpRequestMessage(HttpMethod.Post, at) { Content = content };
            using var answer = await http.SendAsync(post, HttpCompletionOption.ResponseHeadersRead, cancel);
            if (!answer.IsSuccessStatusCode)
            {
                return new PrinterAnswersOddly(printer.Host, $"{(int)answer.StatusCode} {answer.ReasonPhrase}");
            }

            var message = IppMessage.Read(await ReadAsync(answer, cancel));
            return message.IsGranted ? message : message.Code == Busy ? new PrinterIsBusy(printer.Host) : new PrinterRefuses(printer.Host, Why(message));
        }
        catch (InvalidDataException e)
        {
            return new PrinterAnswersOddly(printer.Host, e.Message);
        }
        catch (Exception e) when (e is HttpRequestException or IOException || (e is OperationCanceledException && !cancel.IsCancellationRequested))
        {
            return new PrinterIsAway(printer.Host);
        }
    }

    private static async Task<byte[]> ReadAsync(HttpResponseMessage answer, CancellationToken cancel)
    {
        await using var stream = await answer.Content.ReadAsStreamAsync(cancel);
        using var kept = new MemoryStream();
        var buffer = new byte[16 << 10];
        for (int read; (read = await stream.ReadAsync(buffer, cancel)) > 0;)
        {
            kept.Write(buffer, 0, read);
            if (kept.Length > LongestAnswer)
            {
                throw new InvalidDataException("its answer does not end");
            }
        }

        return kept.ToArray();
    }

    private static string Why(IppMessage message) =>
        message.FirstOf(IppMessage.OperationGroup).Texts("status-message") is [{ Length: > 0 } says, ..] ? says : message.Code switch
        {
            0x040A => "it does not take this kind of file",
            0x0406 => "it knows no such job",
            0x0506 => "it does not take jobs now",
            _ => $"status {message.Code:x4}",
        };
}

/// <summary>The head of a request, and the file behind it without ever being whole in memory.</summary>
internal sealed class IppContent(byte[] head, Stream? file) : HttpContent
{
    protected override Task SerializeToStreamAsync(Stream stream, System.Net.TransportContext? context) => SerializeToStreamAsync(stream, context, CancellationToken.None);

    protected override async Task SerializeToStreamAsync(Stream stream, System.Net.TransportContext? context, CancellationToken cancellationToken)
    {
        await stream.WriteAsync(head, cancellationToken);
        if (file is not null)
        {
            await file.CopyToAsync(stream, cancellationToken);
        }
    }

    protected override bool TryComputeLength(out long length)
    {
        length = head.Length + (file?.Length ?? 0);
        return true;
    }
}

public sealed record PrinterIsAway(string Host) : Refusal($"The printer at {Host} does not answer. Is it on, and on the same network? Nothing was sent twice: send again when it is back.");

public sealed record PrinterIsBusy(string Host) : Refusal($"The printer at {Host} is busy with another job. Send again when it is through.");

public sealed record PrinterRefuses(string Host, string Why) : Refusal($"The printer at {Host} refuses: {Why}.");

public sealed record PrinterAnswersOddly(string Host, string Why) : Refusal($"What answers at {Host} does not speak as a printer does: {Why}. Look at the address.");
