package padward.ui.play;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import padward.base.BadInput;
import padward.design.Design;
import padward.design.Glob;
import padward.design.Net;
import padward.design.PadNames;

/** Reads which nets and pads a group has: names or patterns, with commas between. */
final class GroupText {
    private GroupText() {}

    static List<Net> nets(Design design, String text) throws BadInput {
        List<Net> result = new ArrayList<>();
        for (String one : text.split(",")) {
            Glob glob = Glob.of(one.strip());
            design.nets().stream()
                    .filter(n -> n.name().equals(one.strip()) || glob.matches(n.name()))
                    .filter(n -> !result.contains(n))
                    .forEach(result::add);
        }
        if (result.isEmpty()) {
            throw new BadInput(
                    "nets", "", "names of nets, or patterns that fit some", "“" + text + "”");
        }
        return result;
    }

    static List<Integer> pads(Design design, String text) throws BadInput {
        List<Glob> globs = new ArrayList<>();
        for (String one : text.split(",")) {
            globs.add(Glob.of(one.strip()));
        }
        List<Integer> result =
                IntStream.range(0, design.fabric().pads().size())
                        .filter(
                                i ->
                                        PadNames.namesOf(design, i).stream()
                                                .anyMatch(
                                                        n ->
                                                                globs.stream()
                                                                        .anyMatch(
                                                                                g -> g.matches(n))))
                        .boxed()
                        .toList();
        if (result.isEmpty()) {
            throw new BadInput(
                    "pads", "", "names of pads, or patterns that fit some", "“" + text + "”");
        }
        return result;
    }
}
