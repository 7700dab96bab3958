namespace Goodsheet.App.Demo;

/// <summary>Scenes by smooth functions: nobody took them, and they show no place.</summary>
internal static class DemoScenes
{
    private const int Ridges = 6;
    private const int WedgeSteps = 21;

    /// <summary>Ridges behind ridges, paler with distance, under a glow.</summary>
    public static (double R, double G, double B) Hills(double x, double y, bool warm)
    {
        var glow = Math.Exp(-8 * (Math.Pow((x - 0.66) * 1.5, 2) + Math.Pow(y - 0.36, 2)));
        var colour = warm
            ? Mix((0.36, 0.5, 0.72), (0.98, 0.8, 0.55), (y * 1.7) + (0.4 * glow))
            : Mix((0.08, 0.13, 0.33), (0.62, 0.66, 0.8), (y * 1.5) + (0.2 * glow));
        for (var i = 0; i < Ridges; i++)
        {
            var far = 1 - (i / (Ridges - 1.0));
            var ridge = 0.42 + (0.1 * i)
                + (0.05 * Math.Sin((x * (3 + i)) + (i * 1.9))) + (0.025 * Math.Sin((x * (9 + (2.3 * i))) + (i * 4.1))) + (0.006 * Math.Sin((x * 47) + (i * 2.2)));
            var cover = Math.Clamp((y - ridge) * 900, 0, 1);
            var near = warm ? (0.06, 0.1, 0.07) : (0.015, 0.03, 0.06);
            var haze = warm ? (0.86, 0.68, 0.55) : (0.4, 0.46, 0.64);
            var body = Mix(near, haze, (far * 0.85) + (0.12 * Math.Clamp((y - ridge) * 3, 0, 1) * far));
            colour = Mix(colour, body, cover);
        }

        return Grain(colour, x, y, 0.006);
    }

    /// <summary>Still water under a low light, greys for the most part.</summary>
    public static (double R, double G, double B) Water(double x, double y)
    {
        const double Horizon = 0.46;
        var sky = Mix((0.56, 0.6, 0.66), (0.93, 0.9, 0.85), y / Horizon);
        var light = Math.Exp(-30 * (Math.Pow((x - 0.4) * 1.5, 2) + Math.Pow(y - 0.38, 2)));
        sky = Mix(sky, (1, 0.985, 0.95), light);
        if (y < Horizon)
        {
            return Grain(sky, x, y, 0.005);
        }

        var depth = (y - Horizon) / (1 - Horizon);
        var wave = 0.5 + (0.5 * Math.Sin((260 / (0.25 + depth)) + (5 * Math.Sin((x * 9) + (depth * 14))) + (2 * Math.Sin(x * 31))));
        var path = Math.Exp(-Math.Pow((x - 0.4) / (0.05 + (0.22 * depth)), 2)) * (1 - (0.7 * depth)) * wave;
        var water = Mix((0.6, 0.64, 0.68), (0.1, 0.14, 0.18), Math.Sqrt(depth));
        return Grain(Mix(Mix(water, (0.04, 0.06, 0.08), 0.25 * wave * depth), (1, 0.97, 0.92), 0.8 * path), x, y, 0.006);
    }

    /// <summary>Seven balls of seven hues: strong colours that many papers cannot hold.</summary>
    public static (double R, double G, double B) Spheres(double x, double y)
    {
        var colour = Mix((0.93, 0.92, 0.9), (0.55, 0.54, 0.53), y);
        for (var i = 0; i < 7; i++)
        {
            var (cx, cy, r) = (0.12 + (i * 0.127), 0.5 + (0.2 * Math.Sin(i * 1.7)), 0.11 + (0.03 * Math.Cos(i * 2.3)));
            var (dx, dy) = ((x - cx) * 1.5 / r, (y - cy) / r);
            var shade = Math.Exp(-2.5 * (Math.Pow(dx * 0.8, 2) + Math.Pow((y - cy - (r * 1.05)) / (0.22 * r), 2)));
            colour = Mix(colour, (0.12, 0.12, 0.13), 0.55 * shade);
            var off = (dx * dx) + (dy * dy);
            if (off < 1.02)
            {
                var lit = Math.Clamp((0.35 * -dx) + (0.45 * -dy) + (0.8 * Math.Sqrt(Math.Max(0, 1 - off))), 0, 1);
                var hue = Hue(i / 7.0);
                var ball = Mix((hue.R * 0.08, hue.G * 0.08, hue.B * 0.08), hue, lit);
                colour = Mix(colour, Mix(ball, (1, 1, 1), Math.Pow(lit, 24)), Math.Clamp((1.02 - off) * 40, 0, 1));
            }
        }

        return colour;
    }

    /// <summary>Grey steps, a grey ramp, and ramps of six colours to white and to black.</summary>
    public static (double R, double G, double B) Wedge(double x, double y)
    {
        if (y < 0.22)
        {
            var step = Math.Floor(x * WedgeSteps) / (WedgeSteps - 1);
            return (step, step, step);
        }

        if (y < 0.34)
        {
            return (x, x, x);
        }

        var row = Math.Min(5, (int)((y - 0.34) / 0.11));
        var pure = Hue(row / 6.0);
        return x < 0.5 ? Mix((0, 0, 0), pure, 2 * x) : Mix(pure, (1, 1, 1), (2 * x) - 1);
    }

    private static (double R, double G, double B) Hue(double turn)
    {
        static double Wave(double t) => Math.Clamp(Math.Abs(((t - Math.Floor(t)) * 6) - 3) - 1, 0, 1);
        return (Wave(turn), Wave(turn + (2 / 3.0)), Wave(turn + (1 / 3.0)));
    }

    private static (double R, double G, double B) Mix((double R, double G, double B) from, (double R, double G, double B) to, double part)
    {
        var p = Math.Clamp(part, 0, 1);
        return (from.R + (p * (to.R - from.R)), from.G + (p * (to.G - from.G)), from.B + (p * (to.B - from.B)));
    }

    // So that smooth skies do not look drawn: noise that depends on the place alone.
    private static (double R, double G, double B) Grain((double R, double G, double B) colour, double x, double y, double strength)
    {
        unchecked
        {
            var bits = ((uint)(x * 65_521) * 0x9E3779B1) ^ ((uint)(y * 32_749) * 0x85EBCA77);
            bits = (bits ^ (bits >> 15)) * 0x2C1B3C6D;
            bits = (bits ^ (bits >> 13)) * 0x297A2D39;
            var noise = strength * (((bits >> 8) / (double)0xFFFFFF) - 0.5) * 2;
            return (colour.R + noise, colour.G + noise, colour.B + noise);
        }
    }
}
