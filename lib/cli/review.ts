export async function review(_args: string[]): Promise<void> {}
