package padward.example;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The small example with a second clock: {@code alarm/blink[1]} is clocked by another net. */
public final class TwoClocks {
    private static final String OTHER_CLOCK = "float_hi";

    private TwoClocks() {}

    /** Writes the design, its fabric and its board into a folder; the design's file. */
    public static Path write(Path folder) throws IOException {
        Path small = Path.of("fixtures/small");
        for (String name : new String[] {"only.fabric.json", "board.json"}) {
            Files.copy(small.resolve(name), folder.resolve(name));
        }
        JsonObject design =
                JsonParser.parseString(Files.readString(small.resolve("only.design.json")))
                        .getAsJsonObject();
        JsonArray nets = design.getAsJsonArray("nets");
        JsonObject sink = new JsonObject();
        sink.addProperty("cell", "alarm/blink[1]");
        sink.addProperty("pin", "clk");
        JsonObject clock = nets.get(0).getAsJsonObject();
        if (!clock.getAsJsonArray("sinks").remove(sink)) {
            throw new IllegalStateException("the small example has another clock by now");
        }
        JsonArray branches = clock.getAsJsonArray("route");
        branches.remove(branches.size() - 1);
        sink.addProperty("unrouted", true);
        for (JsonElement net : nets) {
            JsonObject other = net.getAsJsonObject();
            if (other.get("name").getAsString().equals(OTHER_CLOCK)) {
                other.getAsJsonArray("sinks").add(sink);
            }
        }
        return Files.writeString(folder.resolve("two.design.json"), design.toString());
    }
}
