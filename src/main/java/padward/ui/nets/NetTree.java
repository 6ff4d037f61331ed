package padward.ui.nets;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.regex.PatternSyntaxException;
import padward.base.BadInput;
import padward.breakout.survey.PadReachability;
import padward.design.Design;
import padward.design.Glob;
import padward.design.Net;

/**
 * Nets in the order of their hierarchy: a level for each part of a name between slashes, and one
 * for the members of a vector. Built without the toolkit; the view only shows it.
 *
 * @param row what is shown of this level or net
 * @param children the rows below, sorted by name, members of a vector by number
 */
record NetTree(NetRow row, List<NetTree> children) {
    private static final Pattern MEMBER = Pattern.compile("(.+)\\[(\\d{1,9})]");

    /** The nets whose names pass a test. O(size of their trees). */
    static NetTree of(Design design, PadReachability reachability, Predicate<String> wanted) {
        List<Net> nets = design.nets().stream().filter(n -> wanted.test(n.name())).toList();
        return level(design, reachability, "", nets, 0);
    }

    /**
     * The test for a text: a pattern with {@code *} and {@code ?} for the whole name; without such
     * a character, a part of the name; or a regular expression, found anywhere.
     *
     * @throws BadInput when it is not a regular expression
     */
    static Predicate<String> test(String text, boolean expression) throws BadInput {
        if (text.isBlank()) {
            return name -> true;
        }
        if (expression) {
            try {
                return Pattern.compile(text).asPredicate();
            } catch (PatternSyntaxException fault) {
                throw new BadInput("nets", "", "a regular expression", toText(fault));
            }
        }
        boolean marks = text.contains("*") || text.contains("?");
        Glob glob = Glob.of(marks ? text : "*" + text + "*");
        return glob::matches;
    }

    private static String toText(PatternSyntaxException fault) {
        String where =
                fault.getIndex() < 0
                        ? ""
                        : " at character "
                                + Math.min(fault.getIndex() + 1, fault.getPattern().length());
        return "a fault" + where + ": " + fault.getDescription().toLowerCase(Locale.ROOT);
    }

    private static NetTree level(
            Design design, PadReachability reachability, String label, List<Net> nets, int from) {
        Map<String, List<Net>> byPart = new TreeMap<>();
        for (Net net : nets) {
            int slash = net.name().indexOf('/', from);
            String part =
                    slash < 0
                            ? vector(net.name().substring(from))
                            : net.name().substring(from, slash + 1);
            byPart.computeIfAbsent(part, p -> new ArrayList<>()).add(net);
        }
        List<NetTree> children = new ArrayList<>();
        byPart.forEach(
                (part, members) -> {
                    if (part.endsWith("/")) {
                        children.add(
                                level(design, reachability, part, members, from + part.length()));
                    } else if (part.endsWith("[]") && members.size() > 1) {
                        children.add(vector(design, reachability, part, members, from));
                    } else {
                        members.forEach(n -> children.add(leaf(design, reachability, n, from)));
                    }
                });
        return new NetTree(NetRow.group(label, nets.size()), children);
    }

    private static String vector(String part) {
        Matcher member = MEMBER.matcher(part);
        return member.matches() ? member.group(1) + "[]" : part;
    }

    private static NetTree vector(
            Design design, PadReachability reachability, String part, List<Net> members, int from) {
        List<Net> sorted = new ArrayList<>(members);
        sorted.sort(Comparator.comparingInt(NetTree::number));
        String base = part.substring(0, part.length() - 2);
        int first = number(sorted.get(0));
        int last = number(sorted.get(sorted.size() - 1));
        return new NetTree(
                NetRow.group(base + "[" + first + " to " + last + "]", members.size()),
                sorted.stream().map(n -> leaf(design, reachability, n, from)).toList());
    }

    private static int number(Net net) {
        Matcher member = MEMBER.matcher(net.name());
        return member.matches() ? Integer.parseInt(member.group(2)) : 0;
    }

    private static NetTree leaf(Design design, PadReachability reachability, Net net, int from) {
        NetRow row = NetRow.of(design, net, reachability, net.name().substring(from));
        return new NetTree(row, List.of());
    }
}
