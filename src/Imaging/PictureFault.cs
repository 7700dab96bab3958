namespace Goodsheet.Imaging;

/// <summary>Why a picture was refused, in words for the person who brought it.</summary>
public sealed record PictureFault(string Message);

/// <summary>A value, or the fault that stands in its way.</summary>
public sealed record PictureResult<T>
    where T : class
{
    private PictureResult(T? value, PictureFault? fault) => (Value, Fault) = (value, fault);

    public T? Value { get; }

    public PictureFault? Fault { get; }

    /// <summary>A value whose type is an interface, which converts by no operator.</summary>
    internal static PictureResult<T> Of(T value) => new(value, null);

    public static implicit operator PictureResult<T>(T value) => new(value, null);

    public static implicit operator PictureResult<T>(PictureFault fault) => new(null, fault);
}
