package padward.ui.watch;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Consumer;
import padward.base.Lazy;
import padward.ui.design.OpenDesign;
import padward.ui.model.Suggestions;
import padward.ui.model.WindowModel;
import padward.ui.work.Background;
import padward.watch.condition.NetNames;

/** Names of the open design for a word that is being typed; found away from the UI thread. */
final class NameWords {
    private static final String IN_NAMES = "_/.:$-#@[]";

    private final WindowModel model;
    private Background.Job finding = () -> {};
    private Optional<OpenDesign> known = Optional.empty();
    private Lazy<List<String>> nets = new Lazy<>(List::of);

    NameWords(WindowModel model) {
        this.model = model;
    }

    /** Whether a character can stand in a name of a condition without a sign before it. */
    static boolean isInName(char c) {
        return Character.isLetterOrDigit(c) || IN_NAMES.indexOf(c) >= 0;
    }

    /** A name as it is written in a condition. */
    static String escaped(String name) {
        StringBuilder text = new StringBuilder();
        for (int i = 0; i < name.length(); i++) {
            char c = name.charAt(i);
            boolean digit = i == 0 && Character.isDigit(c);
            text.append(digit || !isInName(c) ? "\\" : "").append(c);
        }
        return text.toString();
    }

    /** Vectors and nets that fit a word of a condition. */
    void forCondition(String word, Consumer<List<String>> found) {
        find(word, this::vectorsAndNets, found, NameWords::escaped);
    }

    /** Vectors and nets that fit. */
    void forNets(String word, Consumer<List<String>> found) {
        find(word, this::vectorsAndNets, found, n -> n);
    }

    /** Nets that fit. */
    void forNet(String word, Consumer<List<String>> found) {
        find(word, OpenDesign::netNames, found, n -> n);
    }

    /** Pads that fit, by all their names. */
    void forPads(String word, Consumer<List<String>> found) {
        find(word, OpenDesign::padNames, found, n -> n);
    }

    /** Pads and nets that fit. */
    void forPadsAndNets(String word, Consumer<List<String>> found) {
        find(
                word,
                o -> {
                    List<String> all = new ArrayList<>(o.padNames());
                    all.addAll(o.netNames());
                    return all;
                },
                found,
                n -> n);
    }

    private interface Names {
        List<String> of(OpenDesign opened);
    }

    private interface Spelling {
        String of(String name);
    }

    private void find(String word, Names names, Consumer<List<String>> found, Spelling spelling) {
        finding.cancel();
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            return;
        }
        OpenDesign on = opened.get();
        finding =
                model.jobs()
                        .background()
                        .start(
                                progress ->
                                        Suggestions.of(word, names.of(on), List.of()).stream()
                                                .map(spelling::of)
                                                .toList(),
                                found,
                                unexpected -> {});
    }

    /** Vectors before their bits. */
    private synchronized List<String> vectorsAndNets(OpenDesign opened) {
        if (known.filter(k -> k == opened).isEmpty()) {
            known = Optional.of(opened);
            nets =
                    new Lazy<>(
                            () -> {
                                List<String> all = new ArrayList<>();
                                NetNames.of(opened.design()).vectorRanges().forEach(all::add);
                                all.addAll(opened.netNames());
                                return List.copyOf(all);
                            });
        }
        return nets.get();
    }
}
