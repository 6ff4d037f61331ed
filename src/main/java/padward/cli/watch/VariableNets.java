package padward.cli.watch;

import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import padward.capture.Trace;
import padward.design.Design;
import padward.design.Net;

/**
 * The nets that the variables of a simulation are. A variable's scopes and its name are compared
 * with the nets, first all of them, then one scope fewer each time: with full names, with other
 * names, and with the last parts of names, ignoring case. The longest that fits decides; where it
 * fits several nets, the variable is none. O(sum of the nets' lengths × their depths) once, then
 * O(depth) for each variable.
 */
final class VariableNets implements Trace.Wanted {
    private static final String SEVERAL = "";

    private final Design design;
    private final Map<String, String> byTail = new HashMap<>();

    /** No name has more parts. */
    private final int mostParts;

    VariableNets(Design design) {
        this.design = design;
        for (Net net : design.nets()) {
            String lower = net.name().toLowerCase(Locale.ROOT);
            int at = 0;
            int parts = parts(lower);
            for (int part = 0; part < parts; part++) {
                byTail.merge(lower.substring(at), net.name(), (one, other) -> SEVERAL);
                at = lower.indexOf('/', at) + 1;
            }
        }
        mostParts =
                Stream.concat(design.nets().stream().map(Net::name), design.otherNames().stream())
                        .mapToInt(VariableNets::parts)
                        .max()
                        .orElse(0);
    }

    @Override
    public Optional<Trace.Named> name(List<String> scopes, String own) {
        for (int dropped = Math.max(0, scopes.size() + 1 - mostParts);
                dropped <= scopes.size();
                dropped++) {
            int parts = scopes.size() - dropped + 1;
            String raw = joined(scopes, dropped, own);
            Optional<String> net = net(raw);
            if (net.isEmpty() && raw.indexOf('.') >= 0) {
                net = net(raw.replace('.', '/'));
            }
            if (net.isPresent()) {
                return net.filter(n -> !n.equals(SEVERAL)).map(n -> new Trace.Named(n, parts));
            }
        }
        return Optional.empty();
    }

    private static int parts(String name) {
        return (int) name.chars().filter(c -> c == '/').count() + 1;
    }

    private static String joined(List<String> scopes, int dropped, String own) {
        return dropped == scopes.size()
                ? own
                : String.join("/", scopes.subList(dropped, scopes.size())) + "/" + own;
    }

    private Optional<String> net(String text) {
        // Most bits of a file are no net: those end here, after two look-ups.
        Optional<String> tail = Optional.ofNullable(byTail.get(text.toLowerCase(Locale.ROOT)));
        Optional<String> other = design.findOtherName(text);
        if (tail.isEmpty() && other.isEmpty()) {
            return Optional.empty();
        }
        return design.findNet(text)
                .or(() -> other.flatMap(design::findNet))
                .map(Net::name)
                .or(() -> tail);
    }
}
