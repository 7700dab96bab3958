using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Goodsheet.App.People;
using Goodsheet.App.Settings;
using Goodsheet.Room;
using Goodsheet.Room.People;
using Goodsheet.Room.Settings;

namespace Goodsheet.Web.People;

/// <summary>Shows the code that pairs a phone, and shuts phones and screens out.</summary>
public sealed partial class PhonesPage
{
    private IReadOnlyList<Person> people = [];
    private IReadOnlyList<Device> devices = [];
    private RoomSettings? settings;
    private BeginPairing.Done? shown;
    private Refusal? refusal;
    private string? done;
    private bool isOpen;

    [Inject] private ShowPeople ShowPeople { get; set; } = null!;

    [Inject] private ShowDevices ShowDevices { get; set; } = null!;

    [Inject] private ShowSettings ShowSettings { get; set; } = null!;

    [Inject] private BeginPairing BeginPairing { get; set; } = null!;

    [Inject] private RevokeDevice RevokeDevice { get; set; } = null!;

    [Inject] private StateAddress StateAddress { get; set; } = null!;

    [Inject] private IServer Server { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "pair")] private PairForm Pair { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "out")] private OutForm Out { get; set; } = null!;

    [SupplyParameterFromForm(FormName = "address")] private AddressForm State { get; set; } = null!;

    private string? Address => settings?.Address;

    protected override async Task OnInitializedAsync()
    {
        await ReadAsync();
        Pair ??= new() { Person = people.Any(p => p.Name == Visitor.Name) ? Visitor.Name.Value : "" };
        Out ??= new();
        State ??= new() { Address = Address ?? "" };
        isOpen = Reach.IsBeyondThisMachine(Server.Features.Get<IServerAddressesFeature>()?.Addresses ?? []);
    }

    private async Task ReadAsync()
    {
        people = await ShowPeople.RunAsync();
        devices = await ShowDevices.RunAsync();
        settings = await ShowSettings.RunAsync();
    }

    private async Task PairAsync()
    {
        var outcome = await BeginPairing.RunAsync(new(new(Pair.Person)));
        (shown, refusal) = (outcome.Value, outcome.Refusal);
    }

    private async Task ShutOutAsync()
    {
        var outcome = await RevokeDevice.RunAsync(new(Out.Device));
        (refusal, done) = (outcome.Refusal, outcome.Granted ? $"{outcome.Value.Name} is shut out." : null);
        await ReadAsync();
    }

    private async Task StateAsync()
    {
        var outcome = await StateAddress.RunAsync(new(State.Address));
        (refusal, done) = (outcome.Refusal, outcome.Granted ? $"From now on codes lead to {outcome.Value.Address}." : null);
        await ReadAsync();
    }

    private sealed class PairForm
    {
        public string Person { get; set => field = value ?? ""; } = "";
    }

    private sealed class OutForm
    {
        public Guid Device { get; set; }
    }

    private sealed class AddressForm
    {
        public string Address { get; set => field = value ?? ""; } = "";
    }
}
