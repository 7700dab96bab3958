using System.Runtime.CompilerServices;
using System.Text.RegularExpressions;

namespace Goodsheet.Repo.Tests;

/// <summary>A reader who follows a link in the documents arrives, and finds every page in a list.</summary>
public partial class LinksTest
{
    private static readonly string Root = Path.GetFullPath(Path.Combine(Here(), "../.."));

    [Fact]
    public void Links_within_the_documents_lead_to_files_and_headings()
    {
        var lost = Documents().SelectMany(document => Link().Matches(File.ReadAllText(document))
            .Select(m => m.Groups[1].Value)
            .Where(target => !target.Contains("://", StringComparison.Ordinal) && !Arrives(document, target))
            .Select(target => $"{Path.GetRelativePath(Root, document)} -> {target}"));
        Assert.Empty(lost);
    }

    [Fact]
    public void Every_page_of_the_guide_and_every_decision_is_listed()
    {
        foreach (var folder in (string[])["docs/guide", "docs/decisions"])
        {
            var list = File.ReadAllText(Path.Combine(Root, folder, "README.md"));
            Assert.All(
                Directory.EnumerateFiles(Path.Combine(Root, folder), "*.md").Select(Path.GetFileName).Where(name => name != "README.md"),
                name => Assert.Contains($"({name})", list, StringComparison.Ordinal));
        }
    }

    private static bool Arrives(string document, string target)
    {
        var parts = target.Split('#', 2);
        var file = parts[0].Length == 0 ? document : Path.Combine(Path.GetDirectoryName(document)!, parts[0]);
        return (File.Exists(file) || Directory.Exists(file)) &&
            (parts.Length == 1 || Heading().Matches(File.ReadAllText(file)).Any(m => Anchor(m.Groups[1].Value) == parts[1]));
    }

    private static string Anchor(string heading) =>
        NotInAnchor().Replace(heading.Trim().ToLowerInvariant(), "").Replace(' ', '-');

    private static IEnumerable<string> Documents() =>
        Directory.EnumerateFiles(Root, "*.md")
            .Concat(((string[])["docs", "src", "tests", "bench"]).SelectMany(folder =>
                Directory.EnumerateFiles(Path.Combine(Root, folder), "*.md", SearchOption.AllDirectories)));

    private static string Here([CallerFilePath] string path = "") => Path.GetDirectoryName(path)!;

    [GeneratedRegex(@"\]\(([^)\s]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"^#+ (.+)$", RegexOptions.Multiline)]
    private static partial Regex Heading();

    [GeneratedRegex(@"[^\w\- ]")]
    private static partial Regex NotInAnchor();
}
