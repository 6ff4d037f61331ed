package padward.cli;

import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import picocli.CommandLine;

/** A command run as a user runs it: its exit status, and what it printed. */
record CommandRun(int code, String out, String err) {
    static CommandRun of(Object... words) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        CommandLine line = Padward.commandLine();
        line.setOut(new PrintWriter(out));
        line.setErr(new PrintWriter(err));
        String[] texts = Arrays.stream(words).map(Object::toString).toArray(String[]::new);
        return new CommandRun(line.execute(texts), out.toString(), err.toString());
    }

    JsonObject json() {
        return JsonParser.parseString(out).getAsJsonObject();
    }

    /** Copies the small example's design on {@code only} into a folder. */
    static Path copyExample(Path folder) throws IOException {
        for (String name : new String[] {"only.design.json", "only.fabric.json", "board.json"}) {
            Files.copy(Path.of("fixtures/small", name), folder.resolve(name));
        }
        return folder.resolve("only.design.json");
    }
}
