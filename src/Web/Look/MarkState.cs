namespace Goodsheet.Web.Look;

/// <summary>The six states a thing can be in, each with a shape of its own in the stylesheet.</summary>
public enum MarkState
{
    Good,
    Due,
    Wait,
    Act,
    Stop,
    Gone,
}
