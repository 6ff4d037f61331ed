package padward.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.lang.reflect.Field;
import java.lang.reflect.Modifier;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import padward.cli.command.AskCommand;
import picocli.CommandLine;
import picocli.CommandLine.Model.CommandSpec;

/** The plain call of ask against the whole command line, which is the measure of what is meant. */
class PlainAskTest {
    private static final String DESIGN = "fixtures/small/only.design.json";
    private static final Map<String, String> NOTHING = Map.of();

    @ParameterizedTest
    @ValueSource(
            strings = {
                "--design D --net pump/level/sample[1] --pad J1.2",
                "-d D -n pump/level/sample[1] -p LAMP",
                "--pad J2.1 --json --net pump/level/sample[1] -d D",
                "--quiet -d D -n pump/level/sample[1] -p J1.2",
                "-d D -n pump/level/sample[9] -p J1.2",
                "-d D -n pump/level/sample[1] -p J99.1",
                "-d missing.json -n pump/level/sample[1] -p J1.2"
            })
    void itPrintsWhatTheWholeCommandLinePrints(String words) {
        String[] call = call(words);
        assertThat(PlainAsk.find(call, NOTHING)).isPresent();
        assertThat(plain(call)).isEqualTo(whole(call));
    }

    /** Every option of the command has the value that the whole command line gives it. */
    @Test
    void optionsHaveTheSameValues() throws Exception {
        String[] call = call("-d D -n net -p pad --json");
        CommandLine line = Padward.commandLine(call);
        line.parseArgs(call);
        AskCommand whole = line.getSubcommands().get("ask").getCommand();
        PlainAsk plain = PlainAsk.find(call, NOTHING).orElseThrow();
        PrintWriter nowhere = new PrintWriter(new StringWriter());
        AskCommand plainly = plain.command(Path.of(DESIGN), nowhere, nowhere);
        Map<String, Object> expected = new TreeMap<>();
        collect("", whole, expected);
        assertThat(expected).containsEntry(".pushDepth", Optional.of(1)).hasSizeGreaterThan(15);
        Map<String, Object> found = new TreeMap<>();
        collect("", plainly, found);
        assertThat(found).isEqualTo(expected);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "",
                "--help",
                "-d D -n net",
                "-d D -n net -p",
                "-d D -n net -p -x",
                "-d D -n net -p --json",
                "-d D -n net -n other -p pad",
                "-d D -n net -p pad --json --json",
                "-d D --net=net -p pad",
                "-d D -n net -p pad --corner fast",
                "-d D -n net -p pad --help",
                "-d D -n net -p pad more",
                "--batch D"
            })
    void wordsOfOtherKindsAreLeft(String words) {
        assertThat(PlainAsk.find(call(words), NOTHING)).isEmpty();
    }

    @Test
    void otherCommandsAndNamesFromTheEnvironmentAreLeft() {
        String[] call = call("-d D -n net -p pad");
        assertThat(PlainAsk.find(call, Map.of("PADWARD_NAMES", "names.csv"))).isEmpty();
        call[0] = "survey";
        assertThat(PlainAsk.find(call, NOTHING)).isEmpty();
        assertThat(PlainAsk.find(new String[0], NOTHING)).isEmpty();
    }

    private static String[] call(String words) {
        List<String> call = new ArrayList<>(List.of("ask"));
        Arrays.stream(words.split(" "))
                .filter(w -> !w.isEmpty())
                .map(w -> w.equals("D") ? DESIGN : w)
                .forEach(call::add);
        return call.toArray(String[]::new);
    }

    private static String plain(String[] call) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        PlainAsk plain = PlainAsk.find(call, NOTHING).orElseThrow();
        PrintWriter to = new PrintWriter(plain.quiet() ? Writer.nullWriter() : out);
        PrintWriter faults = new PrintWriter(err);
        int status =
                Faults.guarded(
                        plain.command(Path.of(plain.design()), to, faults), plain.design(), faults);
        return status + "\n" + out + "\n" + err;
    }

    private static String whole(String[] call) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine(call);
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        int status = Padward.execute(line, call);
        return status + "\n" + out + "\n" + err;
    }

    /** The values of all options of an object and of those that it is put together of. */
    private static void collect(String name, Object of, Map<String, Object> values)
            throws IllegalAccessException {
        for (Field field : of.getClass().getDeclaredFields()) {
            boolean option = field.isAnnotationPresent(CommandLine.Option.class);
            boolean part = field.isAnnotationPresent(CommandLine.Mixin.class);
            if (Modifier.isStatic(field.getModifiers()) || field.getType() == CommandSpec.class) {
                continue;
            }
            field.setAccessible(true);
            if (part) {
                collect(name + "." + field.getName(), field.get(of), values);
            } else if (option) {
                values.put(name + "." + field.getName(), Optional.ofNullable(field.get(of)));
            }
        }
    }
}
