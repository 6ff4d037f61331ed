package padward.ui.nets;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.IntegerProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleIntegerProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import padward.base.BadInput;
import padward.breakout.ask.Answer;
import padward.breakout.ask.Asker;
import padward.breakout.ask.Question;
import padward.breakout.survey.NetObservability;
import padward.design.Design;
import padward.design.Net;
import padward.fabric.delay.Corner;
import padward.ui.design.OpenDesign;
import padward.ui.model.QuestionModel;
import padward.ui.model.WindowModel;
import padward.ui.work.BackgroundWork;
import padward.ui.work.FaultText;
import padward.ui.work.JobSlot;

/**
 * The listed nets, and on how many pads each visible one can be brought out: that is calculated in
 * the background, one net after the other, and only for the visible rows.
 */
final class NetsModel {
    private final WindowModel model;
    private final JobSlot job;
    private final StringProperty text = new SimpleStringProperty("");
    private final BooleanProperty expression = new SimpleBooleanProperty(false);
    private final ObjectProperty<Optional<NetTree>> tree =
            new SimpleObjectProperty<>(Optional.empty());
    private final StringProperty fault = new SimpleStringProperty("");
    private final Map<String, NetObservability> observability = new HashMap<>();
    private final Map<String, Answer> toPad = new HashMap<>();
    private final IntegerProperty known = new SimpleIntegerProperty(0);
    private final Deque<String> waiting = new ArrayDeque<>();
    private BackgroundWork.Job building = () -> {};

    NetsModel(WindowModel model) {
        this.model = model;
        this.job = new JobSlot(model.jobs(), this);
        text.addListener((p, old, now) -> rebuild());
        expression.addListener((p, old, now) -> rebuild());
        model.openedProperty()
                .addListener(
                        (p, old, now) -> {
                            forget();
                            rebuild();
                        });
        model.shown().scopeProperty().addListener((p, old, now) -> padChanged());
        rebuild();
    }

    private void padChanged() {
        if (!toPad.isEmpty() || findPad().isPresent()) {
            forget();
        }
    }

    /** The pad that was asked for without a net; then the list says which nets reach it. */
    Optional<Integer> findPad() {
        QuestionModel.Scope scope = model.shown().scopeProperty().getValue();
        return scope.about() == QuestionModel.About.ANY_NET
                ? Optional.of(scope.pads().get(0))
                : Optional.empty();
    }

    /** The corner at which that pad was asked for. */
    private Corner corner() {
        return model.shown().scopeProperty().getValue().corner();
    }

    /** The answer for a net on that pad, once it is known. */
    Optional<Answer> findToPad(String net) {
        return Optional.ofNullable(toPad.get(net));
    }

    /** Whether there is a design whose nets can be listed. */
    boolean isOpen() {
        return model.openedProperty().get().isPresent();
    }

    private void forget() {
        job.cancel();
        waiting.clear();
        observability.clear();
        toPad.clear();
        known.set(0);
    }

    private void rebuild() {
        building.cancel();
        Optional<OpenDesign> opened = model.openedProperty().get();
        if (opened.isEmpty()) {
            tree.set(Optional.empty());
            return;
        }
        String filter = text.get();
        boolean isExpression = expression.get();
        building =
                model.jobs()
                        .background()
                        .start(
                                progress ->
                                        NetTree.of(
                                                opened.get().design(),
                                                opened.get().padReachability(),
                                                NetTree.test(filter, isExpression)),
                                result -> {
                                    fault.set("");
                                    tree.set(Optional.of(result));
                                },
                                wrong -> {
                                    tree.set(Optional.empty());
                                    fault.set(
                                            wrong instanceof BadInput bad
                                                    ? FaultText.what(bad)
                                                    : wrong.toString());
                                });
    }

    /** Calculates the pads of these nets; nets that were visible before are dropped. */
    void see(List<String> nets) {
        waiting.clear();
        nets.stream()
                .filter(n -> !(findPad().isPresent() ? toPad : observability).containsKey(n))
                .forEach(waiting::add);
        if (!job.busyProperty().get()) {
            next();
        }
    }

    private void next() {
        Optional<OpenDesign> opened = model.openedProperty().get();
        String name = waiting.poll();
        if (name == null || opened.isEmpty()) {
            return;
        }
        Design design = opened.get().design();
        design.findNet(name).ifPresent(net -> examine(design, net));
    }

    private void examine(Design design, Net net) {
        String name = net.name();
        Optional<Integer> pad = findPad();
        if (pad.isPresent()) {
            Question question = new Question(design, net, pad.get(), corner());
            job.start(
                    "Asking for the listed nets",
                    progress -> Asker.ask(question, progress),
                    result -> {
                        toPad.put(name, result);
                        known.set(observability.size() + toPad.size());
                        next();
                    });
            return;
        }
        job.start(
                "Finding routes out of the listed nets",
                progress -> NetObservability.of(design, net, Corner.SLOW, progress),
                result -> {
                    observability.put(name, result);
                    known.set(observability.size() + toPad.size());
                    next();
                });
    }

    /** On which pads a net can be brought out, once that is known. */
    Optional<NetObservability> findObservability(String net) {
        return Optional.ofNullable(observability.get(net));
    }

    /** For how many nets that, or the answer on the pad, is known; changes with each. */
    ReadOnlyIntegerProperty knownProperty() {
        return known;
    }

    /** Filter for the listed nets: a part of the name, a pattern, or a regular expression. */
    StringProperty textProperty() {
        return text;
    }

    /** Whether the text is a regular expression. */
    BooleanProperty expressionProperty() {
        return expression;
    }

    /** The listed nets; none while nothing is open or the filter is wrong. */
    ReadOnlyObjectProperty<Optional<NetTree>> treeProperty() {
        return tree;
    }

    /** What is wrong with the filter; empty when nothing is. */
    ReadOnlyStringProperty faultProperty() {
        return fault;
    }

    /** Asks for a net, on the pad that the question names or else on all pads. */
    void ask(NetRow row) {
        if (!row.isGroup()) {
            model.shown().netTextProperty().set(row.name());
            model.shown().ask();
        }
    }
}
