package padward.ui.model;

import com.google.gson.JsonArray;
import com.google.gson.JsonElement;
import com.google.gson.JsonObject;
import com.google.gson.JsonParseException;
import com.google.gson.JsonParser;
import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import padward.base.BadInput;
import padward.fabric.Corner;
import padward.format.json.JsonOut;

/** Reads and writes a session as a small JSON file. Missing members are as at the first start. */
final class SessionFile {
    private SessionFile() {}

    /**
     * Reads a session; that of the first start when there is no file.
     *
     * @throws BadInput when the file is not one that was written here
     */
    static Session read(Path file) throws BadInput {
        if (!Files.exists(file)) {
            return Session.FIRST;
        }
        try (Reader in = Files.newBufferedReader(file)) {
            return session(JsonParser.parseReader(in).getAsJsonObject());
        } catch (IOException
                | JsonParseException
                | ClassCastException
                | IllegalStateException
                | UnsupportedOperationException
                | InvalidPathException
                | NumberFormatException fault) {
            throw new BadInput(
                    file.toString(),
                    "",
                    "a session that the window has saved",
                    String.valueOf(fault.getMessage()));
        }
    }

    private static Session session(JsonObject in) {
        Session first = Session.FIRST;
        List<QuestionsModel.Stated> questions = new ArrayList<>();
        for (JsonElement one : array(in, "questions")) {
            JsonObject from = one.getAsJsonObject();
            questions.add(
                    new QuestionsModel.Stated(
                            text(from, "net"),
                            text(from, "pad"),
                            text(from, "corner").equals("fast") ? Corner.FAST : Corner.SLOW,
                            from.has("asked") && from.get("asked").getAsBoolean()));
        }
        return new Session(
                Optional.of(text(in, "file")).filter(f -> !Path.of(f).toString().isEmpty()),
                questions,
                in.has("shown") ? in.get("shown").getAsInt() : 0,
                in.has("place") ? place(in.getAsJsonObject("place")) : Optional.empty(),
                in.has("dark") ? in.get("dark").getAsBoolean() : first.dark(),
                in.has("lists") ? in.get("lists").getAsBoolean() : first.lists(),
                in.has("textSize") ? in.get("textSize").getAsInt() : first.textSize(),
                texts(in, "recentFiles"),
                texts(in, "recentNets"),
                texts(in, "recentPads"));
    }

    private static Optional<Session.Place> place(JsonObject in) {
        double scale = in.get("scale").getAsDouble();
        double x = in.get("x").getAsDouble();
        double y = in.get("y").getAsDouble();
        boolean sound = Double.isFinite(x) && Double.isFinite(y) && scale > 0 && scale < 1e6;
        return sound ? Optional.of(new Session.Place(x, y, scale)) : Optional.empty();
    }

    private static JsonArray array(JsonObject in, String name) {
        return in.has(name) ? in.getAsJsonArray(name) : new JsonArray();
    }

    private static String text(JsonObject in, String name) {
        return in.has(name) ? in.get(name).getAsString() : "";
    }

    private static List<String> texts(JsonObject in, String name) {
        List<String> result = new ArrayList<>();
        array(in, name).forEach(e -> result.add(e.getAsString()));
        return result;
    }

    /**
     * Replaces the saved session, completely or not at all.
     *
     * @throws BadInput when it cannot be written
     */
    static void write(Session session, Path file) throws BadInput {
        try {
            Files.createDirectories(file.toAbsolutePath().getParent());
        } catch (IOException fault) {
            throw new BadInput(file.toString(), "", "a writable folder", String.valueOf(fault));
        }
        JsonOut.write(file, out -> write(session, out));
    }

    private static void write(Session session, JsonWriter out) throws IOException {
        out.beginObject();
        if (session.file().isPresent()) {
            out.name("file").value(session.file().get());
        }
        out.name("questions").beginArray();
        for (QuestionsModel.Stated one : session.questions()) {
            out.beginObject();
            out.name("net").value(one.net()).name("pad").value(one.pad());
            out.name("corner").value(one.corner().name().toLowerCase(Locale.ROOT));
            out.name("asked").value(one.asked()).endObject();
        }
        out.endArray().name("shown").value(session.shown());
        if (session.place().isPresent()) {
            Session.Place place = session.place().get();
            out.name("place").beginObject();
            out.name("x").value(place.x()).name("y").value(place.y());
            out.name("scale").value(place.scale()).endObject();
        }
        out.name("dark").value(session.dark()).name("lists").value(session.lists());
        out.name("textSize").value(session.textSize());
        write("recentFiles", session.recentFiles(), out);
        write("recentNets", session.recentNets(), out);
        write("recentPads", session.recentPads(), out);
        out.endObject();
    }

    private static void write(String name, List<String> texts, JsonWriter out) throws IOException {
        out.name(name).beginArray();
        for (String text : texts) {
            out.value(text);
        }
        out.endArray();
    }
}
