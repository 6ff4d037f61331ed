/** The priority queues of the searches. */
package padward.route.queue;
