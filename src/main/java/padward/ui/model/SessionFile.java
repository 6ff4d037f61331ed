package padward.ui.model;

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
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import padward.base.BadInput;
import padward.fabric.delay.Corner;
import padward.format.json.JsonOut;

/**
 * Reads and writes a session as a small JSON file. Whatever is missing or wrong in it is as at the
 * first start: a session is a convenience, and must never keep the window from opening.
 */
final class SessionFile {
    private static final double GREATEST_SCALE = 1e6;
    private static final double LARGEST_WINDOW = 1e5;

    /**
     * A session that was read.
     *
     * @param session the session, with defaults for what is wrong
     * @param fault what is wrong; empty when nothing is
     */
    record Read(Session session, Optional<BadInput> fault) {}

    private final JsonObject in;

    /** Members whose default is used, because what stands there is wrong. */
    private final Set<String> wrong = new TreeSet<>();

    private SessionFile(JsonObject in) {
        this.in = in;
    }

    /** Reads a session; that of the first start when there is no file. */
    static Read read(Path file) {
        if (!Files.exists(file)) {
            return new Read(Session.FIRST, Optional.empty());
        }
        try (Reader text = Files.newBufferedReader(file)) {
            JsonElement all = JsonParser.parseReader(text);
            if (!all.isJsonObject()) {
                return unreadable(file, "something else");
            }
            SessionFile members = new SessionFile(all.getAsJsonObject());
            Session session = members.session();
            return new Read(session, members.fault(file));
        } catch (IOException | JsonParseException | StackOverflowError fault) {
            return unreadable(file, String.valueOf(fault.getMessage()));
        }
    }

    private static Read unreadable(Path file, String found) {
        BadInput fault =
                new BadInput(
                        file.toString(),
                        "",
                        "a session that the window has saved",
                        found + "; it opens as at the first start");
        return new Read(Session.FIRST, Optional.of(fault));
    }

    private Optional<BadInput> fault(Path file) {
        return wrong.isEmpty()
                ? Optional.empty()
                : Optional.of(
                        new BadInput(
                                file.toString(),
                                String.join(", ", wrong),
                                "what the window has saved there",
                                "something else; the usual values are used instead"));
    }

    private Session session() {
        Session first = Session.FIRST;
        return new Session(
                find("file", SessionFile::text).filter(this::isPath),
                list("questions", SessionFile::question),
                find("shown", SessionFile::whole).orElse(first.shown()),
                find("place", SessionFile::place),
                find("dark", SessionFile::flag).orElse(first.dark()),
                find("lists", SessionFile::flag).orElse(first.lists()),
                find("reasons", SessionFile::flag).orElse(first.reasons()),
                find("textSize", SessionFile::whole).orElse(first.textSize()),
                list("recentFiles", SessionFile::text).stream().filter(this::isPath).toList(),
                list("recentNets", SessionFile::text),
                list("recentPads", SessionFile::text),
                new Session.Layout(
                        find("window", SessionFile::bounds),
                        find("maximised", SessionFile::flag).orElse(false),
                        find("mapShare", SessionFile::share),
                        find("columns", SessionFile::columns).orElse(Map.of())));
    }

    private interface Part<T> {
        /** The part; throws one of a few unchecked exceptions when it is something else. */
        T of(JsonElement element);
    }

    private <T> Optional<T> find(String name, Part<T> part) {
        return in.has(name) ? part(name, in.get(name), part) : Optional.empty();
    }

    private <T> Optional<T> part(String name, JsonElement element, Part<T> part) {
        try {
            return Optional.of(part.of(element));
        } catch (ClassCastException
                | IllegalStateException
                | IllegalArgumentException
                | ArithmeticException
                | UnsupportedOperationException fault) {
            // NumberFormatException is an IllegalArgumentException.
            wrong.add("$." + name);
            return Optional.empty();
        }
    }

    /** The elements that are as they should be. */
    private <T> List<T> list(String name, Part<T> element) {
        List<T> sound = new ArrayList<>();
        find(name, JsonElement::getAsJsonArray)
                .ifPresent(all -> all.forEach(e -> part(name, e, element).ifPresent(sound::add)));
        return sound;
    }

    private boolean isPath(String file) {
        try {
            return !Path.of(file).toString().isEmpty();
        } catch (InvalidPathException fault) {
            wrong.add("$.file or $.recentFiles");
            return false;
        }
    }

    private static QuestionsModel.Stated question(JsonElement element) {
        JsonObject from = element.getAsJsonObject();
        return new QuestionsModel.Stated(
                text(need(from, "net")),
                text(need(from, "pad")),
                from.has("corner") && text(from.get("corner")).equals("fast")
                        ? Corner.FAST
                        : Corner.SLOW,
                from.has("asked") && flag(from.get("asked")));
    }

    private static Session.Place place(JsonElement element) {
        JsonObject from = element.getAsJsonObject();
        double x = need(from, "x").getAsDouble();
        double y = need(from, "y").getAsDouble();
        double scale = need(from, "scale").getAsDouble();
        boolean sound = Double.isFinite(x) && Double.isFinite(y);
        if (!sound || !(scale > 0 && scale < GREATEST_SCALE)) {
            throw new IllegalArgumentException("no place on a map");
        }
        return new Session.Place(x, y, scale);
    }

    private static Session.Bounds bounds(JsonElement element) {
        JsonObject from = element.getAsJsonObject();
        double width = need(from, "width").getAsDouble();
        double height = need(from, "height").getAsDouble();
        if (!(width > 0 && width < LARGEST_WINDOW && height > 0 && height < LARGEST_WINDOW)) {
            throw new IllegalArgumentException("no size of a window");
        }
        return new Session.Bounds(
                need(from, "x").getAsDouble(), need(from, "y").getAsDouble(), width, height);
    }

    private static double share(JsonElement element) {
        double share = element.getAsDouble();
        if (!(share >= 0 && share <= 1)) {
            throw new IllegalArgumentException("no share");
        }
        return share;
    }

    private static Map<String, List<AppearanceModel.Column>> columns(JsonElement element) {
        Map<String, List<AppearanceModel.Column>> tables = new TreeMap<>();
        for (Map.Entry<String, JsonElement> table : element.getAsJsonObject().entrySet()) {
            List<AppearanceModel.Column> columns = new ArrayList<>();
            for (JsonElement one : table.getValue().getAsJsonArray()) {
                JsonObject from = one.getAsJsonObject();
                double width = need(from, "width").getAsDouble();
                if (!(width >= 0 && width < LARGEST_WINDOW)) {
                    throw new IllegalArgumentException("no width");
                }
                columns.add(
                        new AppearanceModel.Column(
                                text(need(from, "head")), width, flag(need(from, "shown"))));
            }
            tables.put(table.getKey(), columns);
        }
        return tables;
    }

    private static JsonElement need(JsonObject from, String name) {
        if (!from.has(name)) {
            throw new IllegalArgumentException(name + " is missing");
        }
        return from.get(name);
    }

    private static String text(JsonElement element) {
        if (!element.getAsJsonPrimitive().isString()) {
            throw new IllegalArgumentException("not a text");
        }
        return element.getAsString();
    }

    private static int whole(JsonElement element) {
        double value = element.getAsJsonPrimitive().isNumber() ? element.getAsDouble() : Double.NaN;
        if (value != (int) value) {
            throw new IllegalArgumentException("not a whole number");
        }
        return (int) value;
    }

    private static boolean flag(JsonElement element) {
        if (!element.getAsJsonPrimitive().isBoolean()) {
            throw new IllegalArgumentException("neither true nor false");
        }
        return element.getAsBoolean();
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
        out.name("reasons").value(session.reasons());
        out.name("textSize").value(session.textSize());
        write("recentFiles", session.recentFiles(), out);
        write("recentNets", session.recentNets(), out);
        write("recentPads", session.recentPads(), out);
        write(session.layout(), out);
        out.endObject();
    }

    private static void write(Session.Layout layout, JsonWriter out) throws IOException {
        if (layout.window().isPresent()) {
            Session.Bounds at = layout.window().get();
            out.name("window").beginObject().name("x").value(at.x()).name("y").value(at.y());
            out.name("width").value(at.width()).name("height").value(at.height()).endObject();
        }
        out.name("maximised").value(layout.maximised());
        if (layout.mapShare().isPresent()) {
            out.name("mapShare").value(layout.mapShare().get());
        }
        out.name("columns").beginObject();
        for (String table : new TreeSet<>(layout.columns().keySet())) {
            out.name(table).beginArray();
            for (AppearanceModel.Column column : layout.columns().get(table)) {
                out.beginObject().name("head").value(column.head());
                out.name("width").value(column.width());
                out.name("shown").value(column.shown()).endObject();
            }
            out.endArray();
        }
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
