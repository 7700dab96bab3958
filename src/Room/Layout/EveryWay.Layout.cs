namespace Goodsheet.Room.Layout;

/// <content>Reads the best layout back out of the rectangles that were found.</content>
internal sealed partial class EveryWay
{
    private SlicingTree? Layout(int[][] kinds)
    {
        var all = area.Length - 1;
        var hands = kinds.Select(k => new Queue<int>(k)).ToArray();
        if (items.IsStrip)
        {
            if (firstCell[all] == firstCell[all + 1])
            {
                return null;
            }

            var lowest = Enumerable.Range(firstCell[all], firstCell[all + 1] - firstCell[all]).MinBy(i => cells[i].Height);
            var strip = new SlicingTree(items.Count, 1, items.BinWidth, items.BinHeight);
            strip.SetTop(0, Node(strip, lowest, hands));
            return strip;
        }

        if (bins[all] > goal)
        {
            return null;
        }

        var tree = new SlicingTree(items.Count, bins[all], items.BinWidth, items.BinHeight);
        var used = 0;
        foreach (var full in Sheets(all))
        {
            tree.SetTop(used++, Node(tree, firstCell[full], hands));
        }

        return tree;
    }

    /// <summary>The choices that fill the fewest bins.</summary>
    private List<int> Sheets(int choice)
    {
        if (bins[choice] == 1)
        {
            return [choice];
        }

        var digits = weight.Select((w, k) => choice / w % (copies[k] + 1)).ToArray();
        var part = new int[kind.Length];
        for (var a = Next(part, digits, 0); ; a = Next(part, digits, a))
        {
            if (bins[a] + bins[choice - a] == bins[choice])
            {
                return [.. Sheets(a), .. Sheets(choice - a)];
            }
        }
    }

    private int Node(SlicingTree tree, int at, Queue<int>[] hands)
    {
        var cell = cells[at];
        if (cell.Part == None)
        {
            var item = hands[cell.A].Dequeue();
            tree.Size(item, cell.Width, cell.Height);
            return item;
        }

        var one = Node(tree, cell.A, hands);
        return tree.Pair(one, Node(tree, cell.B, hands), cell.InRow);
    }
}
