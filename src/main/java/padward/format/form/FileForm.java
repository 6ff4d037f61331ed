package padward.format.form;

import com.google.gson.stream.JsonWriter;
import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import padward.base.BadInput;
import padward.base.Progress;
import padward.format.json.JsonOut;
import padward.format.json.Passes;
import padward.format.source.Source;

/**
 * The form of a whole file, whose members come in any order and are read in the order in which they
 * refer to each other.
 *
 * @param <R> what a file states
 */
public final class FileForm<R> {
    private final Form<R> form;
    private final List<Slot> slots;

    FileForm(Form<R> form, List<Slot> slots) {
        this.form = form;
        this.slots = List.copyOf(slots);
    }

    /** Reads a file, whose header was checked. */
    public R read(Source source, Progress progress) throws BadInput {
        form.clear();
        Passes passes = new Passes();
        for (Slot slot : slots) {
            String name = slot.isNeeded() ? slot.name() + "!" : slot.name();
            passes.part(name, slot::read, slot.after());
        }
        passes.run(source, progress);
        return form.make();
    }

    /**
     * Writes a file as a whole or not at all, compressed when its name ends in {@code .gz}.
     *
     * @throws BadInput when that cannot be done; an old file is then unchanged
     */
    public void write(Path file, R content) throws BadInput {
        JsonOut.write(file, out -> write(out, content));
    }

    /** Writes it to a stream of JSON. */
    public void write(JsonWriter out, R content) throws IOException {
        form.write(out, content);
    }

    /** What a general validator can check of a file. */
    public Schema schema() {
        return form.schema();
    }
}
