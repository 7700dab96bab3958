using System.Net.Http.Headers;
using System.Reflection;
using System.Runtime.Loader;
using Microsoft.CodeAnalysis;
using Microsoft.CodeAnalysis.CSharp;
using NJsonSchema.CodeGeneration.CSharp;
using NSwag;
using NSwag.CodeGeneration.CSharp;

namespace Goodsheet.Web.Tests.Api;

/// <summary>A client that NSwag writes from the room's own document, compiled here: what somebody gets who has nothing else.</summary>
internal sealed class GeneratedClient
{
    private const string Namespace = "Generated";

    private readonly Assembly assembly;
    private readonly object client;

    private GeneratedClient(Assembly assembly, HttpClient http) =>
        (this.assembly, client) = (assembly, Activator.CreateInstance(assembly.GetType($"{Namespace}.RoomClient")!, http)!);

    public static async Task<GeneratedClient> OfAsync(Uri room, string key)
    {
        var http = new HttpClient { BaseAddress = room };
        var document = await OpenApiDocument.FromJsonAsync(await http.GetStringAsync("/api/openapi.json"));
        var code = new CSharpClientGenerator(document, new()
        {
            ClassName = "RoomClient",
            UseBaseUrl = false,
            CSharpGeneratorSettings = { Namespace = Namespace, JsonLibrary = CSharpJsonLibrary.SystemTextJson },
        }).GenerateFile();
        var references = ((string)AppContext.GetData("TRUSTED_PLATFORM_ASSEMBLIES")!).Split(Path.PathSeparator).Select(p => MetadataReference.CreateFromFile(p));
        var compiled = CSharpCompilation.Create("RoomClient", [CSharpSyntaxTree.ParseText(code)], references, new(OutputKind.DynamicallyLinkedLibrary));
        using var bytes = new MemoryStream();
        var emitted = compiled.Emit(bytes);
        Assert.True(emitted.Success, string.Join('\n', emitted.Diagnostics.Where(d => d.Severity is DiagnosticSeverity.Error)));
        bytes.Position = 0;
        http.DefaultRequestHeaders.Authorization = new AuthenticationHeaderValue("Bearer", key);
        return new(new AssemblyLoadContext(null).LoadFromStream(bytes), http);
    }

    /// <summary>A new thing of one of the client's own types, its properties set by name.</summary>
    public object New(string type, params (string Name, object? Value)[] properties)
    {
        var made = Activator.CreateInstance(assembly.GetType($"{Namespace}.{type}")!)!;
        foreach (var (name, value) in properties)
        {
            var property = made.GetType().GetProperty(name) ?? throw new InvalidOperationException($"{type} has no {name}");
            if (value is object[] many)
            {
                var list = property.GetValue(made) ?? Activator.CreateInstance(typeof(List<>).MakeGenericType(property.PropertyType.GetGenericArguments()))!;
                foreach (var one in many)
                {
                    list.GetType().GetMethod("Add")!.Invoke(list, [one]);
                }

                property.SetValue(made, list);
            }
            else
            {
                property.SetValue(made, value);
            }
        }

        return made;
    }

    /// <summary>Calls an operation; each argument goes to the first parameter that takes its type.</summary>
    public async Task<object> CallAsync(string operation, params object[] arguments)
    {
        var method = client.GetType().GetMethods().Single(m => m.Name == $"{operation}Async" && m.GetParameters().All(p => p.ParameterType != typeof(CancellationToken)));
        var task = (Task)method.Invoke(client, [.. method.GetParameters().Select(p => arguments.FirstOrDefault(a => p.ParameterType.IsInstanceOfType(a)))])!;
        await task;
        return task.GetType().GetProperty("Result")!.GetValue(task)!;
    }

    public static object? Of(object thing, string property) => thing.GetType().GetProperty(property)!.GetValue(thing);
}
