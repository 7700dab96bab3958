using Goodsheet.Room.People;

namespace Goodsheet.Room.Tests.People;

public sealed class PersonTest
{
    private static readonly DateTimeOffset Noon = new(2030, 5, 6, 12, 0, 0, TimeSpan.Zero);

    [Theory]
    [InlineData(4, null)]
    [InlineData(5, 1)]
    [InlineData(6, 2)]
    [InlineData(10, 32)]
    [InlineData(11, 60)] // 64 would be more than the longest
    [InlineData(1000, 60)]
    public void Four_guesses_are_free_then_the_wait_doubles_to_an_hour(int guesses, int? minutes)
    {
        var person = new Person { Name = new("Mira"), Since = Noon };
        for (var i = 0; i < guesses; i++)
        {
            person.CountGuess(Noon);
        }

        Assert.Equal(minutes is { } wait ? Noon.AddMinutes(wait) : null, person.LockedUntil);
        Assert.Equal(minutes is not null, person.IsLocked(Noon));
        Assert.False(person.IsLocked(Noon.AddHours(1)));
        person.ForgetGuesses();
        Assert.False(person.IsLocked(Noon));
    }

    [Theory]
    [InlineData("84219", typeof(SecretRule.TooShort))]
    [InlineData("842196", null)]
    [InlineData("000000", typeof(SecretRule.TooPlain))]
    [InlineData("123456", typeof(SecretRule.TooPlain))]
    [InlineData("987654", typeof(SecretRule.TooPlain))]
    [InlineData("135790", null)]
    [InlineData("marl 12", typeof(SecretRule.TooShort))]
    [InlineData("marl 123", null)]
    [InlineData("", typeof(SecretRule.TooShort))]
    public void A_PIN_has_six_digits_and_a_password_eight_characters(string secret, Type? refusal) =>
        Assert.Equal(refusal, SecretRule.Check(secret)?.GetType());

    [Fact]
    public void A_secret_is_not_longer_than_can_be_kept()
    {
        Assert.Null(SecretRule.Check(new('x', SecretRule.Most)));
        Assert.IsType<SecretRule.TooLong>(SecretRule.Check(new('x', SecretRule.Most + 1)));
    }
}
