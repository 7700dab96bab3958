using Microsoft.EntityFrameworkCore;
using Microsoft.Extensions.Time.Testing;
using Goodsheet.App.People;
using Goodsheet.App.Storage;
using Goodsheet.Room.People;

namespace Goodsheet.App.Tests.People;

public sealed class LettingInTest(PostgresServer postgres)
{
    private const string Pin = "842196";

    private readonly FakeTimeProvider clock = new(new(2030, 5, 6, 12, 0, 0, TimeSpan.Zero));

    public static TheoryData<RoomStore.Kind> BothStores => FreshRoom.BothStores;

    private static CancellationToken Cancel => TestContext.Current.CancellationToken;

    [Theory]
    [MemberData(nameof(BothStores))]
    public async Task The_right_PIN_lets_in_and_the_wrong_one_and_an_unknown_name_hear_the_same(RoomStore.Kind kind)
    {
        await using var room = await WithMiraAsync(kind);
        var signIn = new SignIn(room.Store, clock);
        var done = (await signIn.RunAsync(new(" mira ", Pin, "a screen"), Cancel)).Value!;
        Assert.Equal(new("Mira"), done.Name);
        Assert.Equal(new("Mira"), (await Identify(room).BearerAsync(done.Token, Cancel))!.Person);

        Assert.IsType<SignIn.Wrong>((await signIn.RunAsync(new("Mira", "842197", "a screen"), Cancel)).Refusal);
        Assert.IsType<SignIn.Wrong>((await signIn.RunAsync(new("Nobody", Pin, "a screen"), Cancel)).Refusal);
        Assert.Null(await Identify(room).BearerAsync("made up", Cancel));
    }

    [Theory]
    [MemberData(nameof(BothStores))]
    public async Task After_five_wrong_tries_the_right_PIN_waits_too(RoomStore.Kind kind)
    {
        await using var room = await WithMiraAsync(kind);
        var signIn = new SignIn(room.Store, clock);
        for (var i = 0; i < Person.FreeGuesses; i++)
        {
            Assert.IsType<SignIn.Wrong>((await signIn.RunAsync(new("Mira", "111222", "a screen"), Cancel)).Refusal);
        }

        Assert.IsType<SignIn.Locked>((await signIn.RunAsync(new("Mira", Pin, "a screen"), Cancel)).Refusal);
        clock.Advance(TimeSpan.FromSeconds(59));
        Assert.IsType<SignIn.Locked>((await signIn.RunAsync(new("Mira", Pin, "a screen"), Cancel)).Refusal);
        clock.Advance(TimeSpan.FromSeconds(1));
        Assert.True((await signIn.RunAsync(new("Mira", Pin, "a screen"), Cancel)).Granted);
        Assert.IsType<SignIn.Wrong>((await signIn.RunAsync(new("Mira", "111222", "a screen"), Cancel)).Refusal); // counted anew
    }

    [Theory]
    [MemberData(nameof(BothStores))]
    public async Task Many_guesses_at_once_are_not_more_than_many_in_turn(RoomStore.Kind kind)
    {
        await using var room = await WithMiraAsync(kind);
        var signIn = new SignIn(room.Store, clock);
        var all = await Task.WhenAll(Enumerable.Range(0, 12).Select(i =>
            signIn.RunAsync(new("Mira", $"11122{i}", "a screen"), Cancel)));
        Assert.Equal(Person.FreeGuesses, all.Count(o => o.Refusal is SignIn.Wrong));
        Assert.Equal(12 - Person.FreeGuesses, all.Count(o => o.Refusal is SignIn.Locked));
    }

    [Fact]
    public async Task The_secret_is_in_no_record_and_no_two_are_kept_alike()
    {
        await using var room = await WithMiraAsync(RoomStore.Kind.Sqlite);
        await new AddPerson(room.Store, clock).RunAsync(new("Tomas"), Cancel);
        await new SetSecret(room.Store, clock).RunAsync(new(new("Tomas"), Pin), Cancel);
        await using var db = room.Store.Open();
        var hashes = await db.People.Select(p => p.SecretHash).ToListAsync(Cancel);
        Assert.Equal(2, hashes.Distinct().Count());
        Assert.All(hashes, h => Assert.DoesNotContain(Pin, h, StringComparison.Ordinal));
        Assert.DoesNotContain(Pin, new SetSecret.Request(new("Mira"), Pin).ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain(Pin, new SignIn.Request("Mira", Pin, "a screen").ToString(), StringComparison.Ordinal);
        Assert.DoesNotContain("ABCD", new PairDevice.Request("ABCD-EFGH", "a phone").ToString(), StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(BothStores))]
    public async Task A_code_pairs_one_phone_within_five_minutes(RoomStore.Kind kind)
    {
        await using var room = await WithMiraAsync(kind);
        var (begin, pair) = (new BeginPairing(room.Store, clock), new PairDevice(room.Store, clock));
        var first = (await begin.RunAsync(new(new("Mira")), Cancel)).Value!;
        var code = (await begin.RunAsync(new(new("Mira")), Cancel)).Value!;
        Assert.Matches("^[2-9A-HJ-NP-Z]{4}-[2-9A-HJ-NP-Z]{4}$", code.Code);
        Assert.IsType<PairDevice.CodeIsNoGood>((await pair.RunAsync(new(first.Code, "an older code"), Cancel)).Refusal);

        clock.Advance(TimeSpan.FromSeconds(299));
        var done = (await pair.RunAsync(new(code.Code.Replace("-", " ", StringComparison.Ordinal).ToLowerInvariant(), "Mira’s phone"), Cancel)).Value!;
        Assert.Equal(Admission.Paired, (await Identify(room).BearerAsync(done.Token, Cancel))!.How);
        Assert.IsType<PairDevice.CodeIsNoGood>((await pair.RunAsync(new(code.Code, "again"), Cancel)).Refusal);

        var late = (await begin.RunAsync(new(new("Mira")), Cancel)).Value!;
        clock.Advance(TimeSpan.FromMinutes(5));
        Assert.IsType<PairDevice.CodeIsNoGood>((await pair.RunAsync(new(late.Code, "late"), Cancel)).Refusal);
        Assert.Single(await new ShowDevices(room.Store, clock).RunAsync(Cancel));
    }

    [Theory]
    [InlineData(4, true)]
    [InlineData(5, false)]
    public async Task A_code_that_was_guessed_at_five_times_is_worth_nothing(int wrong, bool stillGood)
    {
        await using var room = await WithMiraAsync(RoomStore.Kind.Sqlite);
        var pair = new PairDevice(room.Store, clock);
        var code = (await new BeginPairing(room.Store, clock).RunAsync(new(new("Mira")), Cancel)).Value!;
        for (var i = 0; i < wrong; i++)
        {
            await pair.RunAsync(new($"AAAA-AAA{i + 2}", "a guess"), Cancel);
        }

        Assert.Equal(stillGood, (await pair.RunAsync(new(code.Code, "a phone"), Cancel)).Granted);
    }

    [Fact]
    public async Task Who_is_shut_out_left_or_too_late_is_let_in_no_more()
    {
        await using var room = await WithMiraAsync(RoomStore.Kind.Sqlite);
        var (signIn, show) = (new SignIn(room.Store, clock), new ShowDevices(room.Store, clock));
        async Task<string> InAsync() => (await signIn.RunAsync(new("Mira", Pin, "a screen"), Cancel)).Value!.Token;
        async Task<bool> IsInAsync(string token) => await Identify(room).BearerAsync(token, Cancel) is not null;

        var token = await InAsync();
        clock.Advance(TimeSpan.FromHours(16) - TimeSpan.FromSeconds(1));
        Assert.True(await IsInAsync(token));
        clock.Advance(TimeSpan.FromSeconds(1));
        Assert.False(await IsInAsync(token));

        token = await InAsync();
        await new RevokeDevice(room.Store, clock).RunAsync(new(Assert.Single(await show.RunAsync(Cancel)).Id), Cancel);
        Assert.False(await IsInAsync(token));

        token = await InAsync();
        await new SetSecret(room.Store, clock).RunAsync(new(new("Mira"), "another password"), Cancel);
        Assert.False(await IsInAsync(token));

        await new SetSecret(room.Store, clock).RunAsync(new(new("Mira"), Pin), Cancel);
        token = await InAsync();
        await new LetPersonGo(room.Store, clock).RunAsync(new(new("Mira")), Cancel);
        Assert.False(await IsInAsync(token));
        Assert.IsType<SignIn.Wrong>((await signIn.RunAsync(new("Mira", Pin, "a screen"), Cancel)).Refusal);
        Assert.Null(await Identify(room).PickedAsync("Mira", Cancel));
    }

    [Theory]
    [InlineData("The Room")]
    [InlineData("somebody at the desk")]
    public async Task The_rooms_own_names_are_nobodys(string name)
    {
        await using var room = await FreshRoom.InFileAsync();
        Assert.IsType<AddPerson.TheRoomsOwn>((await new AddPerson(room.Store, clock).RunAsync(new(name), Cancel)).Refusal);
    }

    private IdentifyVisitor Identify(FreshRoom room) => new(room.Store, clock);

    private async Task<FreshRoom> WithMiraAsync(RoomStore.Kind kind)
    {
        var room = await FreshRoom.OnAsync(kind, postgres);
        await new AddPerson(room.Store, clock).RunAsync(new("Mira"), Cancel);
        Assert.True((await new SetSecret(room.Store, clock).RunAsync(new(new("Mira"), Pin), Cancel)).Granted);
        return room;
    }
}
