using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.Editions;
using Goodsheet.App.Storage;
using Goodsheet.Room;
using Goodsheet.Room.Editions;
using Goodsheet.Room.People;
using Goodsheet.Room.Units;

namespace Goodsheet.App.Tests.Editions;

/// <summary>The register on both stores: a number is given once, whoever asks and whatever breaks.</summary>
public sealed class RegisterTest(PostgresServer postgres)
{
    private const int Issuers = 50;

    private static readonly PersonName Mira = new("Mira");
    private readonly FakeTimeProvider clock = new(new(2026, 3, 5, 9, 0, 0, TimeSpan.Zero));

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task Fifty_who_issue_at_once_get_fifty_numbers_and_none_twice(RoomStore.Kind kind)
    {
        await using var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var edition = await OpenAsync(room, limit: Issuers - 2);
        var answers = await Task.WhenAll(Enumerable.Range(0, Issuers).Select(_ => Task.Run(() => IssueAsync(room, edition))));
        Assert.Equal(Enumerable.Range(1, Issuers - 2), answers.Where(a => a.Granted).Select(a => a.Value!.Number).Order());
        Assert.Equal(2, answers.Count(a => a.Refusal is Numbering.SeriesIsFull));
        await using var db = room.Store.Open();
        Assert.Equal(Issuers - 2, (await db.NumberedPrints.Select(p => p.Code).ToListAsync(Cancel)).Distinct().Count());
    }

    [Theory, MemberData(nameof(FreshRoom.BothStores), MemberType = typeof(FreshRoom))]
    public async Task A_crash_before_the_end_gives_no_number_away_and_leaves_no_gap(RoomStore.Kind kind)
    {
        await using var room = await (await FreshRoom.OnAsync(kind, postgres)).FurnishedAsync();
        var edition = await OpenAsync(room, limit: 3);
        Assert.Equal(1, (await IssueAsync(room, edition)).Value!.Number);

        // As when the process dies between writing and committing: the step's work is there and never committed.
        await Assert.ThrowsAsync<IOException>(() => room.Store.ChangeAsync<IssuePrint.Done>(async db =>
        {
            await db.Editions.Where(e => e.Number == edition).ExecuteUpdateAsync(e => e.SetProperty(x => x.Issued, x => x.Issued + 1), Cancel);
            await db.Database.ExecuteSqlAsync($"UPDATE numbered_print SET number = 2 WHERE edition = {edition}", Cancel);
            throw new IOException("the power went");
        }, Cancel));

        Assert.Equal(2, (await IssueAsync(room, edition)).Value!.Number);
        var wish = CommandId.New();
        var once = await IssueAsync(room, edition, wish);
        var again = await IssueAsync(room, edition, wish);
        Assert.Equal((3, once.Value!.Code), (once.Value.Number, again.Value!.Code));
        Assert.IsType<Numbering.SeriesIsFull>((await IssueAsync(room, edition)).Refusal);
    }

    [Fact]
    public async Task A_destroyed_number_is_kept_and_only_then_replaced()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var edition = await OpenAsync(room, limit: 2);
        var first = (await IssueAsync(room, edition)).Value!;
        Assert.IsType<IssuePrint.IsNotDestroyed>((await IssueAsync(room, edition, replaces: 1)).Refusal);
        Assert.IsType<DestroyPrint.SayWhy>((await new DestroyPrint(room.Store, clock).RunAsync(new(Mira, first.Code, " "), Cancel)).Refusal);
        Assert.True((await new DestroyPrint(room.Store, clock).RunAsync(new(Mira, first.Code, "torn, before witnesses"), Cancel)).Granted);
        Assert.Equal(2, (await IssueAsync(room, edition)).Value!.Number);
        var second = (await IssueAsync(room, edition, replaces: 1)).Value!;
        Assert.Equal(1, second.Number);
        var page = (await new ShowEditions(room.Store).OneAsync(edition, Cancel))!;
        Assert.Equal([(1, 0, true), (1, 1, false), (2, 0, false)], page.Prints.Select(p => (p.Number, p.Replacement, p.DestroyedAt is not null)));
        Assert.Contains("torn, before witnesses", await new ShowEditions(room.Store).CsvAsync(edition, Cancel), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_certificate_verifies_and_one_that_was_touched_does_not()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var edition = await OpenAsync(room, limit: 25);
        var issued = (await IssueAsync(room, edition)).Value!;
        var certificate = (await new ShowEditions(room.Store).CertificateAsync(issued.Code, Cancel))!;
        var verify = new VerifyCertificate(room.Store);
        Assert.True((await verify.RunAsync(new(certificate.Words.Replace("\n", "\r\n", StringComparison.Ordinal) + "\n", certificate.Print.Signature), Cancel)).Granted);
        foreach (var (from, to) in new[] { ("1/25", "2/25"), ("Low Water", "High Water"), (issued.Code, "0000-0000-0000"), ("380", "381") })
        {
            Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(certificate.Words.Replace(from, to, StringComparison.Ordinal), certificate.Print.Signature), Cancel)).Refusal);
        }

        Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(certificate.Words, "bm90IGEgc2lnbmF0dXJl"), Cancel)).Refusal);
        Assert.IsType<VerifyCertificate.Forged>((await verify.RunAsync(new(certificate.Words, "not base 64"), Cancel)).Refusal);

        // Another room's signature is not this room's.
        await using var other = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        await IssueAsync(other, await OpenAsync(other, limit: 25));
        Assert.IsType<VerifyCertificate.Forged>((await new VerifyCertificate(other.Store).RunAsync(new(certificate.Words, certificate.Print.Signature), Cancel)).Refusal);
    }

    [Fact]
    public async Task Proofs_have_numbers_of_their_own_sizes_may_too_and_many_proofs_are_remarked()
    {
        await using var room = await (await FreshRoom.InFileAsync()).FurnishedAsync();
        var open = new OpenEdition(room.Store, clock);
        var ten = (await open.RunAsync(new(CommandId.New(), Mira, "Low Water", "I. Tallowby", 2025, 10, 1, 0, 0, false), Cancel)).Value!;
        Assert.False(ten.ManyProofs);
        Assert.True((await open.RunAsync(new(CommandId.New(), Mira, "High Water", "I. Tallowby", 2025, 10, 2, 0, 0, true), Cancel)).Value!.ManyProofs);
        Assert.IsType<OpenEdition.IsInTheRegister>((await open.RunAsync(new(CommandId.New(), Mira, "Low Water", "I. Tallowby", 2025, 99, 1, 0, 0, true), Cancel)).Refusal);
        Assert.Equal("1/10", (await IssueAsync(room, ten.Edition)).Value!.InWords);
        Assert.Equal("2/10", (await IssueAsync(room, ten.Edition)).Value!.InWords);
        Assert.Equal("1/10", (await IssueAsync(room, ten.Edition, width: 760)).Value!.InWords);
        Assert.Equal("AP 1/1", (await IssueAsync(room, ten.Edition, series: Series.ArtistsProof)).Value!.InWords);
        Assert.IsType<Numbering.SeriesIsFull>((await IssueAsync(room, ten.Edition, series: Series.ArtistsProof)).Refusal);
        Assert.IsType<Numbering.SeriesIsFull>((await IssueAsync(room, ten.Edition, series: Series.HorsCommerce)).Refusal);
        Assert.IsType<NoSuchEdition>((await IssueAsync(room, 99)).Refusal);
    }

    private async Task<int> OpenAsync(FreshRoom room, int limit) =>
        (await new OpenEdition(room.Store, clock).RunAsync(new(CommandId.New(), Mira, "Low Water", "I. Tallowby", 2025, limit, 2, 0, 0, true), Cancel)).Value!.Edition;

    private Task<Outcome<IssuePrint.Done>> IssueAsync(FreshRoom room, int edition, CommandId? wish = null, int? replaces = null, Series series = Series.Numbered, int width = 380) =>
        new IssuePrint(room.Store, clock).RunAsync(new(
            wish ?? CommandId.New(), Mira, edition, series, replaces, Length.FromMillimetres(width), Length.FromMillimetres(253), Length.FromMillimetres(width + 40), Length.FromMillimetres(297),
            FreshRoom.Cotton, "Pigment, matte black", new(2026, 3, 5), null), Cancel);
}
