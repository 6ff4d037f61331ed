package padward.handover;

import com.samskivert.mustache.BasicCollector;
import com.samskivert.mustache.Mustache;
import com.samskivert.mustache.MustacheException;
import com.samskivert.mustache.MustacheParseException;
import com.samskivert.mustache.Template;
import java.io.IOException;
import java.io.InputStream;
import java.io.Reader;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.Iterator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import padward.base.BadInput;
import padward.base.ReadFault;
import padward.breakout.ask.Cautions;
import padward.change.LedgerEntry;

/**
 * Turns a change list into text through a template of the user's, so that any environment can read
 * it. Templates are in the Mustache language, which has names and sections and cannot run anything:
 * a template sees the texts, lists and truth values of the model and no object of the program,
 * reads no other file, and a name that the model does not have is reported with its line.
 */
public final class ChangeTemplate {
    private static final Pattern LINE = Pattern.compile("line (\\d+)");
    private static final int LONGEST = 1_000_000;

    /** Most sections that run for each elementary change; a template that lists them needs some. */
    private static final int SECTIONS_A_CHANGE = 500;

    private ChangeTemplate() {}

    /**
     * Runs a template over a change list.
     *
     * @throws BadInput when the template cannot be read or has a fault
     */
    public static String run(Path file, ChangeList list) throws BadInput {
        String text = read(file);
        try {
            Template template =
                    Mustache.compiler()
                            .escapeHTML(false)
                            .strictSections(true)
                            .withCollector(new OnlyTexts(list))
                            .withFormatter(ChangeTemplate::text)
                            .withLoader(ChangeTemplate::noOther)
                            .compile(text);
            return template.execute(model(list));
        } catch (MustacheParseException fault) {
            throw fault(file, fault, "a template in the Mustache language");
        } catch (MustacheException.Context fault) {
            throw new BadInput(
                    file.toString(),
                    "line " + fault.lineNo,
                    "a name that the change list has there (see docs/formats.md)",
                    "“" + fault.key + "”");
        } catch (MustacheException fault) {
            throw fault(file, fault, "a template in the Mustache language");
        } catch (IndexOutOfBoundsException fault) { // the library, at a tag without content
            throw new BadInput(file.toString(), "", "a name in each tag", "an empty tag");
        } catch (StackOverflowError fault) { // the library calls itself for each nested section
            throw new BadInput(
                    file.toString(), "", "sections nested a few deep", "thousands of them nested");
        }
    }

    /** A section written as if it were a text would print an object of the program. */
    private static String text(Object value) {
        if (value instanceof Mustache.Lambda || value instanceof Map || value instanceof List) {
            throw new MustacheException(
                    "a section without {{#name}} and {{/name}}, where only a text can stand");
        }
        return value.toString();
    }

    private static String read(Path file) throws BadInput {
        // A pipe or a device does not say how long it is.
        try (InputStream in = Files.newInputStream(file)) {
            byte[] bytes = in.readNBytes(LONGEST + 1);
            if (bytes.length > LONGEST) {
                throw new BadInput(
                        file.toString(), "", "at most " + LONGEST + " bytes", "more of them");
            }
            return StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
        } catch (IOException fault) {
            throw ReadFault.of(file.toString(), fault);
        }
    }

    private static Reader noOther(String name) {
        throw new MustacheException("another template, “" + name + "”; a template stands alone");
    }

    private static BadInput fault(Path file, Exception fault, String expected) {
        String message = String.valueOf(fault.getMessage());
        Matcher line = LINE.matcher(message);
        return new BadInput(
                file.toString(), line.find() ? "line " + line.group(1) : "", expected, message);
    }

    /** Looks names up in maps only, so that a template cannot reach the program's objects. */
    private static final class OnlyTexts extends BasicCollector {
        private final long most;
        private long sections;

        OnlyTexts(ChangeList list) {
            long changes = list.entries().stream().mapToLong(e -> 1 + e.changes().size()).sum();
            most = SECTIONS_A_CHANGE * (1 + changes);
        }

        /** Lists nested in themselves multiply: thirty deep would not end. */
        @Override
        public Iterator<?> toIterator(Object value) {
            if (++sections > most) {
                throw new MustacheException(
                        "one with lists nested in themselves, whose sections would run more than "
                                + most
                                + " times");
            }
            return super.toIterator(value);
        }

        @Override
        public Mustache.VariableFetcher createFetcher(Object context, String name) {
            return context instanceof Map ? super.createFetcher(context, name) : null;
        }

        @Override
        public <K, V> Map<K, V> createFetcherCache() {
            return new ConcurrentHashMap<>();
        }
    }

    private static Map<String, Object> model(ChangeList list) {
        Map<String, Object> model = new HashMap<>();
        model.put("design", list.ledger().design());
        model.put("sha256", list.ledger().digest());
        model.put("fabric", list.fabric());
        model.put("back", list.back());
        model.put("footer", Cautions.FOOTER);
        model.put("entries", list.entries().stream().map(ChangeTemplate::entry).toList());
        model.put("json", (Mustache.Lambda) (f, out) -> out.write(Quoting.json(f.execute())));
        model.put("shell", (Mustache.Lambda) (f, out) -> out.write(Quoting.shell(f.execute())));
        model.put("csv", (Mustache.Lambda) (f, out) -> out.write(Quoting.csv(f.execute())));
        return model;
    }

    private static Map<String, Object> entry(ChangeList.Entry entry) {
        LedgerEntry kept = entry.entry();
        Map<String, Object> model = new HashMap<>();
        model.put("number", entry.number());
        model.put("when", kept.when());
        model.put("who", kept.who());
        model.put("noteLines", kept.note().lines().map(l -> Map.of("text", l)).toList());
        model.put("entryNet", kept.net());
        model.put("entryPad", kept.pad());
        List<Map<String, Object>> changes = new ArrayList<>();
        entry.changes().forEach(c -> changes.add(change(c)));
        model.put("changes", changes);
        model.put("cautions", entry.cautions().stream().map(ChangeTemplate::caution).toList());
        return model;
    }

    private static Map<String, Object> caution(Cautions.Shared shared) {
        return Map.of("text", shared.toText(), "serious", shared.caution().kind().isSerious());
    }

    private static Map<String, Object> change(Change change) {
        Map<String, Object> model = new HashMap<>();
        model.put("what", change.what().label());
        for (Change.What what : Change.What.values()) {
            model.put("is-" + what.label(), what == change.what());
        }
        ChangeList.COLUMNS.forEach(c -> model.put(c, change.get(c)));
        return model;
    }
}
