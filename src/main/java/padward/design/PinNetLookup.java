package padward.design;

import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Nets by where they begin or end, as messages and people put it: {@code cell.pin}, {@code port
 * NAME}, {@code the D of register NAME}. Case does not count.
 */
final class PinNetLookup {
    private static final Pattern PHRASE =
            Pattern.compile("(?i)(?:the )?(?:pin )?(\\S+) of (?:the )?(?:register |cell )?(\\S+)");
    private static final Pattern PORT = Pattern.compile("(?i)(?:the )?port (\\S+)");
    private static final Pattern NET = Pattern.compile("(?i)(?:the )?net (\\S+)");

    private PinNetLookup() {}

    /** The nets that a text means in this manner; each once. O(cells) at the most. */
    static List<Net> find(Design design, String text) {
        Matcher net = NET.matcher(text);
        if (net.matches()) {
            return design.findNet(net.group(1)).stream().toList();
        }
        Matcher port = PORT.matcher(text);
        if (port.matches()) {
            return design.findPort(port.group(1))
                    .map(p -> List.copyOf(design.netsAtPort(p.id())))
                    .orElse(List.of());
        }
        Matcher phrase = PHRASE.matcher(text);
        if (phrase.matches()) {
            return at(design, phrase.group(2), phrase.group(1));
        }
        int dot = text.lastIndexOf('.');
        return dot <= 0 ? List.of() : at(design, text.substring(0, dot), text.substring(dot + 1));
    }

    private static List<Net> at(Design design, String cellName, String pin) {
        Optional<Cell> cell = cell(design, cellName);
        Set<Net> result = new LinkedHashSet<>();
        cell.ifPresent(
                c -> {
                    for (Net net : design.netsAt(c.id())) {
                        if (net.ends().stream().anyMatch(e -> isPin(e, c, pin))) {
                            result.add(net);
                        }
                    }
                });
        return List.copyOf(result);
    }

    /** The cell of that name, or the only one whose name ends so. */
    private static Optional<Cell> cell(Design design, String name) {
        Optional<Cell> exact = design.findCell(name);
        if (exact.isPresent()) {
            return exact;
        }
        String lower = name.toLowerCase(Locale.ROOT);
        List<Cell> fitting =
                design.cells().stream()
                        .filter(c -> NameLookup.isTail(c.name(), lower))
                        .limit(2)
                        .toList();
        return fitting.size() == 1 ? Optional.of(fitting.get(0)) : Optional.empty();
    }

    private static boolean isPin(Terminal end, Cell cell, String pin) {
        return end instanceof Terminal.CellPin at
                && at.cell() == cell.id()
                && at.pin().equalsIgnoreCase(pin);
    }
}
