/** A handler that Excel calls at an event. */
export type AddedHandler<Event> = OfficeExtension.EventHandlerResult<Event>;

/** Removes handlers that were added together; Excel wants it done in the context that added them. */
export async function removeHandlers<Event>(handlers: readonly AddedHandler<Event>[]): Promise<void> {
  const [first] = handlers;
  if (first === undefined) return;
  await Excel.run(first.context, async (context) => {
    for (const handler of handlers) handler.remove();
    await context.sync();
  });
}
