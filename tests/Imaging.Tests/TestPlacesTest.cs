namespace Goodsheet.Imaging.Tests;

public sealed class TestPlacesTest
{
    private const double ATenth = 0.1; // the picture is looked at small

    [Fact]
    public void Each_place_is_found_where_it_was_painted_and_the_first_has_most_of_all()
    {
        using var scratch = new Scratch();
        // A grey of 600 by 400 with a vivid green field, drawing in shadows, a skin tone, each 120 by 80, and nothing else.
        var picture = Paint(scratch, (x, y) =>
            In(x, y, 40, 40) ? (0, 65535, 0)
            : In(x, y, 440, 40) ? (x + y) % 40 < 20 ? (4_000, 4_000, 4_000) : (12_000, 12_000, 12_000)
            : In(x, y, 240, 280) ? (55_000, 40_000, 32_000)
            : (34_000, 34_000, 34_000));
        var places = Find(scratch, picture);
        At(places, PlaceOf.NotHeld, 40, 40);
        At(places, PlaceOf.Shadows, 440, 40);
        At(places, PlaceOf.Skin, 240, 280);
        Assert.Equal(PlaceOf.Most, places[0].Of);
    }

    [Fact]
    public void Of_an_even_grey_the_middle_is_proposed_and_nothing_is_named()
    {
        using var scratch = new Scratch();
        var place = Assert.Single(Find(scratch, Paint(scratch, (_, _) => (34_000, 34_000, 34_000))));
        Assert.Equal((PlaceOf.Most, true, true), (place.Of, Math.Abs(place.X - 0.4) < ATenth, Math.Abs(place.Y - 0.4) < ATenth));
    }

    [Fact]
    public void A_strip_as_large_as_the_print_lies_at_its_corner()
    {
        using var scratch = new Scratch();
        var places = TestPlaces.Find(scratch.Ramp("in.png", 300, 200), Scratch.Read(Scratch.Printer), true, 1.5, (1, 1)).Value!;
        Assert.All(places, p => Assert.Equal((0.0, 0.0), (p.X, p.Y)));
    }

    private static bool In(int x, int y, int left, int top) => x >= left && x < left + 120 && y >= top && y < top + 80;

    private static IReadOnlyList<TestPlace> Find(Scratch scratch, string picture) =>
        TestPlaces.Find(picture, Scratch.Read(Scratch.Printer), true, 1.5, (0.2, 0.2)).Value!;

    private static void At(IReadOnlyList<TestPlace> places, PlaceOf of, int left, int top)
    {
        var place = places.Single(p => p.Of == of);
        Assert.InRange(place.X, (left / 600.0) - ATenth, (left / 600.0) + ATenth);
        Assert.InRange(place.Y, (top / 400.0) - ATenth, (top / 400.0) + ATenth);
    }

    private static string Paint(Scratch scratch, Func<int, int, (int, int, int)> colour)
    {
        DrawnTiff.Write(scratch["in.tif"], 600, 400, 3, 300, (y, row) =>
        {
            for (var x = 0; x < 600; x++)
            {
                var (r, g, b) = colour(x, y);
                (row[3 * x], row[(3 * x) + 1], row[(3 * x) + 2]) = ((ushort)r, (ushort)g, (ushort)b);
            }
        });
        return scratch["in.tif"];
    }
}
