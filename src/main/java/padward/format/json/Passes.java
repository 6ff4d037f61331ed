package padward.format.json;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.source.Source;

/**
 * Reads the members of a file's outermost object so that each comes after those that it refers to,
 * in whatever order they come. A file in the order of the documentation is read once; a part that
 * comes too early is skipped and read in another pass, so nothing has to be stored.
 */
public final class Passes {
    /** How a part is read. */
    public interface Part {
        void read(JsonIn in) throws BadInput;
    }

    private record Entry(Part part, List<String> after) {}

    private final Map<String, Entry> parts = new LinkedHashMap<>();
    private final List<String> names = new ArrayList<>();
    private final Set<String> done = new HashSet<>();
    private final Set<String> absent = new HashSet<>();

    /**
     * Adds a part.
     *
     * @param name the member's name, with {@code !} after it when it is required
     * @param after members that are read before, when the file has them
     */
    public Passes part(String name, Part part, String... after) {
        names.add(name);
        parts.put(name.replace("!", ""), new Entry(part, List.of(after)));
        return this;
    }

    /** Reads them all. */
    public void run(Source source, Progress progress) throws BadInput {
        JsonShape shape = JsonShape.of(names.toArray(new String[0]));
        // each pass reads one part at least, as the parts' order has no circles; a file that
        // someone changes meanwhile ends with the bound
        for (int i = 0; i < parts.size() && pass(source, progress, shape); i++) {
            if (progress.cancelled()) {
                throw new CancellationException("reading " + source.label());
            }
        }
    }

    private boolean pass(Source source, Progress progress, JsonShape shape) throws BadInput {
        boolean left = false;
        Set<String> present = new HashSet<>();
        try (JsonIn in = new JsonIn(source, progress)) {
            Members member = in.object(shape);
            while (member.next()) {
                String name = member.name();
                present.add(name);
                if (!done.contains(name) && ready(name)) {
                    parts.get(name).part().read(in);
                    done.add(name);
                } else {
                    left |= !done.contains(name);
                    in.skip();
                }
            }
            in.end();
        }
        absent.addAll(parts.keySet());
        absent.removeAll(present);
        return left;
    }

    private boolean ready(String name) {
        return parts.get(name).after().stream()
                .allMatch(before -> done.contains(before) || absent.contains(before));
    }
}
